import { bodyEndDot, type Colour, colourOf, micaSixDots, micaThreeDots } from '#core/circuit/colour-code.ts';
import { bestTiePoints, type TiePoints } from '#core/circuit/tracking-curve.ts';
import type { CoilResonance } from '#core/circuit/tuned-circuit.ts';
import { parseQuantity } from '#record/quantity.ts';
import { frequencyWords } from '#record/quantity-words.ts';
import { codeAnswer, leadAnswer } from './code.ts';
import { dampingAnswer, layerCoilAnswer, piledCoilAnswer, qAnswer, resonancesAnswer } from './coil.ts';
import { micaAnswer } from './mica.ts';
import { attenuatorAnswer, avcAnswer, dummyAnswer } from './network.ts';
import { padderAnswer } from './padder.ts';
import type { PartAnswer } from './part-answer.ts';
import { type PartKind, pairAnswer } from './part-choice.ts';
import type { PartWords } from './part-words.ts';

/** Parts whose value can be asked for. */
export type PartName = 'mica' | 'padder' | 'pair' | 'coil' | 'attenuator' | 'dummy' | 'avc' | 'code';

function mica(options: PartWords): PartAnswer {
	const frequencyHz = options.quantity('frequency', 'if', '455kc');
	const inductanceH = options.quantity('inductance', 'inductance', '1.1mH');
	const straysF = options.quantity('capacitance', 'strays', '15mmf');
	if (options.has('trimmer') === options.has('slug')) {
		throw options.refusal(
			`give what tunes the winding: either ${options.called('trimmer')} (5mmf-45mmf) or ${options.called('slug')} (15%)`,
		);
	}
	const inductanceUncertaintyShare = options.shareOr('inductance-known', 0);
	// Twice the uncertainty either way is reckoned with: beyond a half nothing would be left of the inductance.
	if (inductanceUncertaintyShare >= 0.5)
		throw options.refusal(
			`${options.called('inductance-known')}: give per cent below 50, such as 2%, or measure the winding`,
		);
	const winding = {
		frequencyHz,
		inductanceH,
		inductanceUncertaintyShare,
		straysF,
		straysUncertaintyF: options.quantityOr('capacitance', 'strays-known', 0),
		adjuster: options.has('trimmer')
			? ({ kind: 'trimmer', rangeF: options.range('capacitance', 'trimmer', '5mmf-45mmf') } as const)
			: ({ kind: 'slug', reachShare: options.shareOr('slug', 0) } as const),
	};
	const fittedF = options.quantityOr('capacitance', 'fit', null);
	return micaAnswer(winding, fittedF, options.shareOr('tolerance', 0.05), options.stock('capacitance'));
}

function padder(options: PartWords): PartAnswer {
	const band = options.band();
	const ifHz = options.quantity('frequency', 'if', '455kc');
	const made = padderAnswer(
		{
			band,
			ifHz,
			pointsHz: options.has('points')
				? (options.points('points', 3) as unknown as TiePoints)
				: bestTiePoints(band, ifHz, 'above', 'kilocycles'),
			given: {
				gangF: options.quantity('capacitance', 'gang', '365mmf'),
				straysF: options.quantityOr('capacitance', 'strays', 30e-12),
				network: options.oneOf('network', ['gang', 'coil'], 'gang'),
				otherStraysF: options.quantityOr('capacitance', 'other-strays', 0),
			},
			screwF: options.has('trimmer') ? options.range('capacitance', 'trimmer', '60mmf-260mmf') : null,
		},
		options.quantityOr('capacitance', 'fit', null),
		options.shareOr('tolerance', 0.05),
		options.stock('capacitance'),
	);
	if (made.kind === 'refused') throw options.refusal(`cannot be made: ${made.words}`);
	return made.answer;
}

function pair(options: PartWords, given: readonly string[]): PartAnswer {
	const [words, ...more] = given;
	if (words === undefined || more.length > 0) throw options.refusal('give one wanted value, such as: part pair 373mmf');
	const kinds: readonly PartKind[] = ['capacitance', 'inductance', 'resistance'];
	for (const kind of kinds) {
		const parsed = parseQuantity(kind, words);
		if (parsed.ok) return pairAnswer(kind, parsed.value, options.stock(kind));
	}
	throw options.refusal(`cannot read a part from "${words}": give a value with its unit, such as 373mmf, 4k7 or 240uH`);
}

/** A resonance written as frequency@capacitance. */
function resonance(options: PartWords, words: string, share: number): CoilResonance {
	const [frequency = '', capacitance = '', ...more] = words.split('@');
	if (capacitance === '' || more.length > 0) {
		throw options.refusal(
			`${options.called('resonances')}: cannot read "${words}": give frequency@capacitance, such as 2Mc@460mmf`,
		);
	}
	const value = options.read('capacitance', 'resonances', capacitance);
	return {
		frequencyHz: { value: options.read('frequency', 'resonances', frequency), uncertainty: 0 },
		capacitanceF: { value, uncertainty: value * share },
	};
}

function coil(options: PartWords): PartAnswer {
	if (options.has('resonances')) {
		const words = options.words('resonances', '').split(',');
		const found = words.map((one) => resonance(options, one, options.shareOr('capacitors', 0.01)));
		const [low, high] = found.sort((a, b) => a.frequencyHz.value - b.frequencyHz.value);
		if (!low || !high || found.length !== 2 || low.frequencyHz.value === high.frequencyHz.value) {
			throw options.refusal(
				`${options.called('resonances')}: give two of different frequency, such as 2Mc@460mmf,4Mc@100mmf`,
			);
		}
		if (low.capacitanceF.value <= high.capacitanceF.value) {
			throw options.refusal(
				`${options.called('resonances')}: the higher frequency has the smaller capacitor: are the two exchanged?`,
			);
		}
		return resonancesAnswer(low, high);
	}
	if (options.has('edges')) {
		const { least, most } = options.range('frequency', 'edges', '453kc-457kc');
		const belowPeakDb = Math.abs(options.quantityOr('level', 'below', 10 * Math.log10(2)));
		if (!(belowPeakDb > 0))
			throw options.refusal(`${options.called('below')}: give how far below the peak, such as 6dB`);
		const edgeUncertaintyHz = options.quantityOr('frequency', 'edges-known', 100);
		return qAnswer({ lowHz: least, highHz: most, belowPeakDb, edgeUncertaintyHz });
	}
	if (options.has('width')) {
		const inductanceH = options.quantity('inductance', 'inductance', '1.1mH');
		const frequencyHz = options.quantity('frequency', 'if', '455kc');
		const widthHz = options.quantity('frequency', 'width', '12kc');
		const q = options.count('q', '80');
		if (widthHz <= frequencyHz / q) {
			throw options.refusal(
				`${options.called('width')}: the circuit is ${frequencyWords(frequencyHz / q, 'US')} wide already: give more than that`,
			);
		}
		return dampingAnswer(inductanceH, q, frequencyHz, widthHz);
	}
	const turns = options.count('turns', '100');
	const diameterM = options.quantity('length', 'diameter', '30mm');
	const lengthM = options.quantity('length', 'length', '40mm');
	const wantedH = options.quantityOr('inductance', 'wanted', null);
	try {
		return options.has('depth')
			? piledCoilAnswer(
					{ turns, meanRadiusM: diameterM / 2, lengthM, depthM: options.quantity('length', 'depth', '5mm') },
					wantedH,
				)
			: layerCoilAnswer({ turns, diameterM, lengthM }, wantedH);
	} catch (error) {
		if (wantedH === null) throw error;
		throw options.refusal(
			`${options.called('wanted')}: no number of turns on this former gives it; give one nearer to what the coil has`,
		);
	}
}

function colours(options: PartWords, words: readonly string[]): readonly Colour[] {
	return words.map((word) => {
		const colour = colourOf(word);
		if (colour === null)
			throw options.refusal(`"${word}" is no colour of the code: give such as brown, grey, gold, none`);
		return colour;
	});
}

function code(options: PartWords, [kind, ...words]: readonly string[]): PartAnswer {
	if (kind === 'leads') {
		const found = (['IF', 'output', 'power'] as const).find((one) => one.toLowerCase() === words[0]?.toLowerCase());
		if (!found || words.length > 1) throw options.refusal('give the transformer: part code leads IF, output or power');
		return leadAnswer(found);
	}
	const [a = 'none', b = 'none', c = 'none', d = 'none', e = 'none', f = 'none'] = colours(options, words);
	if (words.length > 0 && words.every((word) => colourOf(word) === 'none'))
		throw options.refusal('no colour is given: choose each as it is seen on the part');
	const unreadable = options.refusal(
		`these colours make no value in this order: ${words.join(', ')}; turn the part round`,
	);
	if (kind === 'resistor' && words.length >= 2 && words.length <= 4) {
		const read = bodyEndDot(a, b, c, d);
		if (read) return codeAnswer('resistor', read);
		throw unreadable;
	}
	if (kind === 'mica' && (words.length === 3 || words.length === 6)) {
		const read = words.length === 3 ? micaThreeDots(a, b, c) : micaSixDots([a, b, c], [d, e, f]);
		if (read) return codeAnswer('mica', read);
		throw unreadable;
	}
	throw options.refusal(
		'give: code resistor BODY END DOT [OTHER END]; code mica with 3 dots, or 6 dots with the upper row first; or code leads IF',
	);
}

const parts: Readonly<Record<PartName, (options: PartWords, given: readonly string[]) => PartAnswer>> = {
	mica,
	padder,
	pair,
	coil,
	attenuator: (options) => {
		const lossDb = Math.abs(options.quantity('level', 'loss', '20dB'));
		if (!(lossDb > 0 && lossDb <= 120))
			throw options.refusal(`${options.called('loss')}: give above 0 and up to 120 dB, such as 20dB`);
		const impedanceOhm = options.quantityOr('resistance', 'impedance', 50);
		const series = options.stock('resistance');
		if (series.kind !== 'series')
			throw options.refusal(`${options.called('drawer')}: an attenuator is made of a series: give --series E24`);
		return attenuatorAnswer(options.oneOf('shape', ['T', 'pi'], 'pi'), impedanceOhm, lossDb, series.series);
	},
	dummy: (options) => dummyAnswer(options.quantityOr('frequency', 'at', 1e6)),
	avc: (options) =>
		avcAnswer(
			options.quantity('resistance', 'resistance', '1M'),
			options.quantity('capacitance', 'capacitance', '0.1mfd'),
		),
	code,
};

/** Whether a word names a part whose value can be asked for. */
export function isPartName(word: string): word is PartName {
	return Object.hasOwn(parts, word);
}

/** Every part whose value can be asked for. */
export const partNames = Object.keys(parts) as readonly PartName[];

/**
 * The answer about a part.
 * @param given words without a name: the wanted value of a pair, the colours of a code
 * @throws what `options` makes of input that cannot be used
 */
export function partAnswer(name: PartName, options: PartWords, given: readonly string[]): PartAnswer {
	return parts[name](options, given);
}
