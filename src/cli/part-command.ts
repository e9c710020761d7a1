import { codeAnswer, leadAnswer } from '#advice/parts/code.ts';
import { dampingAnswer, layerCoilAnswer, piledCoilAnswer, qAnswer, resonancesAnswer } from '#advice/parts/coil.ts';
import { micaAnswer } from '#advice/parts/mica.ts';
import { attenuatorAnswer, avcAnswer, dummyAnswer } from '#advice/parts/network.ts';
import { padderAnswer } from '#advice/parts/padder.ts';
import type { PartAnswer } from '#advice/parts/part-answer.ts';
import { type PartKind, pairAnswer } from '#advice/parts/part-choice.ts';
import { bodyEndDot, type Colour, colourOf, micaSixDots, micaThreeDots } from '#core/circuit/colour-code.ts';
import { bestTiePoints } from '#core/circuit/tracking-curve.ts';
import type { CoilResonance } from '#core/circuit/tuned-circuit.ts';
import { parseQuantity } from '#record/quantity.ts';
import { type Command, InputFault } from './command.ts';
import { bandOption, tiePointsOption } from './dial-options.ts';
import { readQuantity } from './input.ts';
import { PartOptions } from './part-options.ts';

function mica(options: PartOptions): PartAnswer {
	const frequencyHz = options.quantity('frequency', 'if', '455kc');
	const inductanceH = options.quantity('inductance', 'inductance', '1.1mH');
	const straysF = options.quantity('capacitance', 'strays', '15mmf');
	if (options.has('trimmer') === options.has('slug')) {
		throw new InputFault('give what tunes the winding: either --trimmer 5mmf-45mmf or --slug 15%');
	}
	const winding = {
		frequencyHz,
		inductanceH,
		inductanceUncertaintyShare: options.shareOr('inductance-known', 0),
		straysF,
		straysUncertaintyF: options.quantityOr('capacitance', 'strays-known', 0),
		adjuster: options.has('trimmer')
			? ({ kind: 'trimmer', rangeF: options.range('capacitance', 'trimmer', '5mmf-45mmf') } as const)
			: ({ kind: 'slug', reachShare: options.shareOr('slug', 0) } as const),
	};
	const fittedF = options.quantityOr('capacitance', 'fit', null);
	return micaAnswer(winding, fittedF, options.shareOr('tolerance', 0.05), options.stock('capacitance'));
}

function padder(options: PartOptions): PartAnswer {
	const band = bandOption(options);
	const ifHz = options.quantity('frequency', 'if', '455kc');
	const made = padderAnswer(
		{
			band,
			ifHz,
			pointsHz: options.has('points')
				? tiePointsOption(options, 'points')
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
	if (made.kind === 'refused') throw new InputFault(`cannot be made: ${made.words}`);
	return made.answer;
}

function pair(options: PartOptions, given: readonly string[]): PartAnswer {
	const [words, ...more] = given;
	if (words === undefined || more.length > 0) throw new InputFault('give one wanted value, such as: part pair 373mmf');
	const kinds: readonly PartKind[] = ['capacitance', 'inductance', 'resistance'];
	for (const kind of kinds) {
		const parsed = parseQuantity(kind, words);
		if (parsed.ok) return pairAnswer(kind, parsed.value, options.stock(kind));
	}
	throw new InputFault(`cannot read a part from "${words}": give a value with its unit, such as 373mmf, 4k7 or 240uH`);
}

/** A resonance written as frequency@capacitance. */
function resonance(words: string, share: number): CoilResonance {
	const [frequency = '', capacitance = '', ...more] = words.split('@');
	if (capacitance === '' || more.length > 0) {
		throw new InputFault(`--resonances: cannot read "${words}": give frequency@capacitance, such as 2Mc@460mmf`);
	}
	const value = readQuantity('capacitance', '--resonances', capacitance);
	return {
		frequencyHz: { value: readQuantity('frequency', '--resonances', frequency), uncertainty: 0 },
		capacitanceF: { value, uncertainty: value * share },
	};
}

function coil(options: PartOptions): PartAnswer {
	if (options.has('resonances')) {
		const words = options.words('resonances', '').split(',');
		const found = words.map((one) => resonance(one, options.shareOr('capacitors', 0.01)));
		const [low, high] = found.sort((a, b) => a.frequencyHz.value - b.frequencyHz.value);
		if (!low || !high || found.length !== 2 || low.frequencyHz.value === high.frequencyHz.value) {
			throw new InputFault('--resonances: give two of different frequency, such as 2Mc@460mmf,4Mc@100mmf');
		}
		return resonancesAnswer(low, high);
	}
	if (options.has('edges')) {
		const { least, most } = options.range('frequency', 'edges', '453kc-457kc');
		const belowPeakDb = Math.abs(options.quantityOr('level', 'below', 10 * Math.log10(2)));
		if (!(belowPeakDb > 0)) throw new InputFault('--below: give how far below the peak, such as 6dB');
		const edgeUncertaintyHz = options.quantityOr('frequency', 'edges-known', 100);
		return qAnswer({ lowHz: least, highHz: most, belowPeakDb, edgeUncertaintyHz });
	}
	if (options.has('width')) {
		const inductanceH = options.quantity('inductance', 'inductance', '1.1mH');
		const frequencyHz = options.quantity('frequency', 'if', '455kc');
		const widthHz = options.quantity('frequency', 'width', '12kc');
		const q = options.count('q', '80');
		if (widthHz <= frequencyHz / q) {
			throw new InputFault(
				`--width: the circuit is ${Math.round(frequencyHz / q)} c wide already: give more than that`,
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
		throw new InputFault('--wanted: no number of turns on this former gives it; give one nearer to what the coil has');
	}
}

function colours(words: readonly string[]): readonly Colour[] {
	return words.map((word) => {
		const colour = colourOf(word);
		if (colour === null)
			throw new InputFault(`"${word}" is no colour of the code: give such as brown, grey, gold, none`);
		return colour;
	});
}

function code([kind, ...words]: readonly string[]): PartAnswer {
	if (kind === 'leads') {
		const found = (['IF', 'output', 'power'] as const).find((one) => one.toLowerCase() === words[0]?.toLowerCase());
		if (!found || words.length > 1) throw new InputFault('give the transformer: part code leads IF, output or power');
		return leadAnswer(found);
	}
	const [a = 'none', b = 'none', c = 'none', d = 'none', e = 'none', f = 'none'] = colours(words);
	const unreadable = new InputFault(
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
	throw new InputFault(
		'give: code resistor BODY END DOT [OTHER END]; code mica with 3 dots, or 6 dots with the upper row first; or code leads IF',
	);
}

const parts: Readonly<Record<string, (options: PartOptions, given: readonly string[]) => PartAnswer>> = {
	mica,
	padder,
	pair,
	coil,
	attenuator: (options) => {
		const lossDb = Math.abs(options.quantity('level', 'loss', '20dB'));
		if (!(lossDb > 0 && lossDb <= 120)) throw new InputFault('--loss: give above 0 and up to 120 dB, such as 20dB');
		const impedanceOhm = options.quantityOr('resistance', 'impedance', 50);
		const series = options.stock('resistance');
		if (series.kind !== 'series')
			throw new InputFault('--drawer: an attenuator is made of a series: give --series E24');
		return attenuatorAnswer(options.oneOf('shape', ['T', 'pi'], 'pi'), impedanceOhm, lossDb, series.series);
	},
	dummy: (options) => dummyAnswer(options.quantityOr('frequency', 'at', 1e6)),
	avc: (options) =>
		avcAnswer(
			options.quantity('resistance', 'resistance', '1M'),
			options.quantity('capacitance', 'capacitance', '0.1mfd'),
		),
	code: (_, given) => code(given),
};

/** Parts that are read from words, not from options alone. */
const takingWords = ['pair', 'code'];

const optionNames =
	'if inductance inductance-known strays strays-known trimmer slug fit tolerance series drawer resonances capacitors edges edges-known below width q turns diameter length depth wanted loss impedance shape at resistance capacitance band points gang network other-strays';

export const partCommand: Command = {
	name: 'part',
	summary: 'which part to fit: IF mica, padder, pairs, coils, attenuators, dummy antennas, AVC, colour codes',
	usage: 'mica|padder|pair|coil|attenuator|dummy|avc|code ... [--json]',
	examples: [
		'npx peakwright part mica --if 455kc --inductance 1.1mH --strays 15mmf --trimmer 5mmf-45mmf --tolerance 5%',
		'npx peakwright part padder --if 455kc --band 540kc-1600kc --gang 365mmf --strays 30mmf --tolerance 5%',
		'npx peakwright part pair 373mmf --drawer 47mmf,100mmf,270mmf',
		'npx peakwright part coil --turns 100 --diameter 30mm --length 40mm --wanted 240uH',
		'npx peakwright part coil --resonances 2Mc@460mmf,4Mc@100mmf --capacitors 1%',
		'npx peakwright part coil --edges 453kc-457kc --below 3dB',
		'npx peakwright part coil --width 12kc --q 80 --inductance 1.1mH --if 455kc',
		'npx peakwright part attenuator --loss 20dB --impedance 50ohm --series E24',
		'npx peakwright part dummy --at 1000kc',
		'npx peakwright part avc --resistance 1M --capacitance 0.1mfd',
		'npx peakwright part code resistor green grey red',
		'npx peakwright part code mica white brown red brown silver red',
	],
	options: {
		...Object.fromEntries(optionNames.split(' ').map((name) => [name, { type: 'string' as const }])),
		json: { type: 'boolean' },
	},
	run({ values, positionals }, output) {
		const [name = '', ...given] = positionals;
		const make = Object.hasOwn(parts, name) ? parts[name] : undefined;
		if (!make) throw new InputFault(`no part "${name}": give one of ${Object.keys(parts).join(', ')}`);
		if (given.length > 0 && !takingWords.includes(name)) {
			throw new InputFault(`cannot use "${given[0]}": part ${name} takes options only; see npx peakwright part --help`);
		}
		const answer = make(new PartOptions(values), given);
		if (values.json === true) {
			const { figures, sheetWords, toleranceWords, sourceWords, cautions } = answer;
			output.line(
				JSON.stringify({
					part: name,
					...figures,
					sheet: sheetWords,
					tolerance: toleranceWords,
					source: sourceWords,
					cautions,
				}),
			);
			return;
		}
		const width = Math.max(...answer.lines.map((line) => line.name.length));
		for (const line of answer.lines) output.line(`${line.name.padEnd(width)}  ${line.words}`);
		output.line('');
		output.line(`Sheet: ${answer.sheetWords}`);
		output.line(`Trust: ${answer.toleranceWords}`);
		output.line(`Source: ${answer.sourceWords}`);
		for (const caution of answer.cautions) output.line(`Caution: ${caution}`);
		if (answer.cautions.length > 0) output.line('Local codes and licensed practice come first.');
	},
};
