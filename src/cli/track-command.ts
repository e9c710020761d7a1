import { kcWords } from '#advice/dial/dial-words.ts';
import { trackingRefusalWords } from '#advice/tracking-words.ts';
import {
	antennaLossDb,
	type BandLimits,
	bestTiePoints,
	type OscillatorSide,
	type TiePoints,
	trackingCurve,
	trackingPeaks,
} from '#core/circuit/tracking-curve.ts';
import { type GangGiven, trackingParts } from '#core/circuit/tracking-parts.ts';
import { cutPlates, type TwoPointCircuit, twoPointPadder, twoPointTrimmer } from '#core/circuit/two-point-tracking.ts';
import type { Language } from '#record/language.ts';
import { capacitanceWords, inductanceWords } from '#record/quantity-words.ts';
import { answerRow } from './answer-row.ts';
import { type CommandOutput, InputFault } from './command.ts';
import { bandOption, dialPointsHz, tiePointsOption } from './dial-options.ts';
import { PartOptions } from './part-options.ts';
import { spokenCommand } from './spoken-command.ts';

const row = answerRow(10);

interface Wish {
	readonly band: BandLimits;
	readonly ifHz: number;
	readonly side: OscillatorSide;
	readonly q: number;
	readonly given: GangGiven;
	readonly language: Language;
}

function wishOf(options: PartOptions, language: Language): Wish {
	return {
		language,
		band: bandOption(options),
		ifHz: options.quantity('frequency', 'if', '455kc'),
		side: options.oneOf('oscillator', ['above', 'below'], 'above'),
		q: options.has('q') ? options.count('q', '60') : 60,
		given: {
			gangF: options.quantityOr('capacitance', 'gang', 365e-12),
			straysF: options.quantityOr('capacitance', 'strays', 30e-12),
			network: options.oneOf('network', ['gang', 'coil'], 'gang'),
			otherStraysF: options.quantityOr('capacitance', 'other-strays', 0),
		},
	};
}

function pointsOf(options: PartOptions, { band, ifHz, side }: Wish): TiePoints {
	if (options.has('points') && options.has('best')) throw new InputFault('give either --points or --best, not both');
	if (options.has('points')) return tiePointsOption(options, 'points');
	const aim = options.oneOf('best', ['kilocycles', 'loss'], 'kilocycles');
	if (side === 'below' && band.lowHz <= ifHz) refuse({ kind: 'refused', why: 'below the IF', trimmerF: null });
	try {
		return bestTiePoints(band, ifHz, side, aim);
	} catch {
		throw new InputFault('--best: no tie points level the errors of this band at this IF: give --points of your own');
	}
}

function refuse(parts: Parameters<typeof trackingRefusalWords>[0]): never {
	throw new InputFault(`cannot be made: ${trackingRefusalWords(parts)}`);
}

function threePoint(options: PartOptions, wish: Wish): Answer {
	const { band, ifHz, side, q, given } = wish;
	const { say } = wish.language;
	const pointsHz = pointsOf(options, wish);
	const parts = trackingParts(pointsHz, band, ifHz, side, given);
	if (parts.kind === 'refused') return refuse(parts);
	const { errorHz } = trackingCurve(pointsHz, ifHz, side);
	const padded = { ...parts.padded };
	const straight = { inductanceH: parts.straightH };
	const isAbove = side === 'above';
	return {
		form: 'three-point',
		pointsHz,
		worstErrorHz: Math.max(...trackingPeaks(band, pointsHz, ifHz, side).map((peak) => Math.abs(peak.errorHz))),
		errorHz,
		lossQ: q,
		circuits: isAbove ? { oscillator: padded, antenna: straight } : { oscillator: straight, antenna: padded },
		lines: [
			row(say`Antenna`, inductanceWords((isAbove ? straight : padded).inductanceH)),
			row(say`Oscillator`, inductanceWords((isAbove ? padded : straight).inductanceH)),
			row(
				say`Padder`,
				isAbove
					? say`${capacitanceWords(padded.padderF)}, in the oscillator circuit`
					: say`${capacitanceWords(padded.padderF)}, in the antenna circuit`,
			),
			row(
				say`Trimmer`,
				given.network === 'gang'
					? say`${capacitanceWords(padded.trimmerF)} across the gang, strays there counted in`
					: say`${capacitanceWords(padded.trimmerF)} across the coil, strays there counted in`,
			),
		],
	};
}

/** The older forms, marked as what they are. */
function twoPoint(
	options: PartOptions,
	{ ifHz, side, given, q, language: { say } }: Wish,
	pointsHz: readonly number[],
): Answer {
	const [lowHz = 0, highHz = 0] = pointsHz;
	if (side === 'below') throw new InputFault('--form: the two-point forms are for the oscillator above the signal');
	const form = options.oneOf('form', ['padder', 'trimmer'], 'padder');
	const design = form === 'padder' ? twoPointPadder : twoPointTrimmer;
	const mostF = given.gangF + given.straysF;
	const circuit: TwoPointCircuit = design({ lowHz, highHz, ifHz, mostF });
	const { inductanceH, padderF, trimmerF, errorHz } = circuit;
	const antennaH = 1 / ((2 * Math.PI * lowHz) ** 2 * mostF);
	return {
		form: `two-point, ${form} alone`,
		pointsHz,
		worstErrorHz: null,
		errorHz,
		lossQ: q,
		circuits: { oscillator: { inductanceH, padderF, trimmerF }, antenna: { inductanceH: antennaH } },
		lines: [
			form === 'padder'
				? say`Two-point form, padder alone: right at the two points and nowhere asked about between.`
				: say`Two-point form, trimmer alone: right at the two points and nowhere asked about between.`,
			row(say`Antenna`, inductanceWords(antennaH)),
			row(say`Oscillator`, inductanceWords(inductanceH)),
			padderF === null
				? row(say`Trimmer`, say`${capacitanceWords(trimmerF ?? 0)} on top of the signal circuit\u2019s strays`)
				: row(say`Padder`, capacitanceWords(padderF)),
		],
	};
}

/** An oscillator section with cut plates: what its plates would have to be. */
function cut(options: PartOptions, { band, ifHz, given, q, language: { say, dial } }: Wish): Answer {
	const mostF = options.quantity('capacitance', 'cut-plates', '140mmf');
	const { inductanceH, sectionF } = cutPlates(band.lowHz, ifHz, mostF, given.straysF);
	if (!(sectionF(band.highHz) > 0)) {
		throw new InputFault(
			'--cut-plates: with these strays the section has nothing left at the high end: give a larger one',
		);
	}
	const antennaH = 1 / ((2 * Math.PI * band.lowHz) ** 2 * (given.gangF + given.straysF));
	const places = dialPointsHz(band, 7);
	return {
		form: 'cut plates',
		pointsHz: [],
		worstErrorHz: 0,
		errorHz: () => 0,
		lossQ: q,
		circuits: {
			oscillator: { inductanceH, padderF: null, trimmerF: given.straysF },
			antenna: { inductanceH: antennaH },
			sections: places.map((dialHz) => ({ dialHz, oscillatorF: sectionF(dialHz) })),
		},
		lines: [
			say`Cut plates: no padder. True only at the IF that the plates were cut for.`,
			row(say`Oscillator`, inductanceWords(inductanceH)),
			...places.map((dialHz) => `${dial(dialHz).padStart(10)}  ${capacitanceWords(sectionF(dialHz))}`),
		],
	};
}

interface Answer {
	readonly form: string;
	readonly pointsHz: readonly number[];
	/** `null`: to be found on the dial points. */
	readonly worstErrorHz: number | null;
	errorHz(dialHz: number): number;
	readonly lossQ: number;
	readonly circuits: Readonly<Record<string, unknown>>;
	readonly lines: readonly string[];
}

function tell(
	answer: Answer,
	{ band, language: { say, dial, figure } }: Wish,
	isJson: boolean,
	output: CommandOutput,
): void {
	const errors = dialPointsHz(band, 121).map((dialHz) => ({ dialHz, errorHz: answer.errorHz(dialHz) }));
	const loss = (one: { dialHz: number; errorHz: number }): number =>
		antennaLossDb(answer.lossQ, one.dialHz, one.dialHz + one.errorHz);
	const worstErrorHz = answer.worstErrorHz ?? Math.max(...errors.map(({ errorHz }) => Math.abs(errorHz)));
	const worstLossDb = Math.max(...errors.map(loss));
	if (isJson) {
		const { form, pointsHz, circuits } = answer;
		output.line(
			JSON.stringify({ form, pointsHz, worstErrorHz, worstLossDb, lossQ: answer.lossQ, errors, ...circuits }),
		);
		return;
	}
	for (const line of answer.lines) output.line(line);
	if (answer.pointsHz.length > 0) {
		output.line(row(say`Tie points`, answer.pointsHz.map(dial).join(', ')));
	}
	output.line(
		row(
			say`Worst`,
			say`${figure(`${(worstErrorHz / 1e3).toFixed(2)} kc`)}; ${worstLossDb.toFixed(1)} dB of antenna loss at Q ${answer.lossQ}`,
		),
	);
	output.line('');
	for (const [place, error] of errors.entries()) {
		if (place % 10 !== 0) continue;
		output.line(
			`${dial(error.dialHz).padStart(10)}  ${figure(kcWords(error.errorHz)).padStart(8)}  ${loss(error).toFixed(1)} dB`,
		);
	}
}

export const trackCommand = spokenCommand({
	name: 'track',
	summary: 'tracking of a band: best tie points, error over the dial, coil, padder and trimmer',
	usage:
		'--if 455kc --band 540kc-1600kc [--points 600kc,1000kc,1400kc | --best kilocycles|loss] [--q 60] [--gang 365mmf] [--strays 30mmf] [--oscillator above|below] [--network gang|coil] [--other-strays 8mmf] [--form padder|trimmer with two points] [--cut-plates 140mmf] [--json]',
	examples: [
		'npx peakwright track --if 455kc --band 540kc-1600kc --best kilocycles',
		'npx peakwright track --if 455kc --band 540kc-1600kc --points 600kc,1000kc,1400kc --gang 365mmf --strays 30mmf',
		'npx peakwright track --if 455kc --band 540kc-1600kc --points 600kc,1500kc --form padder',
	],
	options: {
		...Object.fromEntries(
			[
				'if',
				'band',
				'points',
				'best',
				'q',
				'gang',
				'strays',
				'other-strays',
				'oscillator',
				'network',
				'form',
				'cut-plates',
			].map((name) => [name, { type: 'string' as const }]),
		),
		json: { type: 'boolean' },
	},
	run({ values, positionals }, output, language) {
		if (positionals.length > 0) throw new InputFault(`cannot use "${positionals[0]}": track takes options only`);
		const options = new PartOptions(values);
		const wish = wishOf(options, language);
		const two = options.has('points') ? options.words('points', '').split(',') : [];
		const answer = options.has('cut-plates')
			? cut(options, wish)
			: two.length === 2
				? twoPoint(options, wish, tiePointsOption(options, 'points', 2))
				: threePoint(options, wish);
		tell(answer, wish, values.json === true, output);
	},
});
