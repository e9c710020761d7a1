import { fixedPadder } from '#core/circuit/fixed-padder.ts';
import type { Range } from '#core/circuit/if-capacitor.ts';
import { type BandLimits, type TiePoints, trackingPeaks } from '#core/circuit/tracking-curve.ts';
import { type GangGiven, trackingParts } from '#core/circuit/tracking-parts.ts';
import { capacitanceWords, frequencyWords, inductanceWords } from '#record/quantity-words.ts';
import { trackingRefusalWords } from '../tracking-words.ts';
import { type PartAnswer, percentWords } from './part-answer.ts';
import { choicesFor, choiceWords, type Stock } from './part-choice.ts';

/** What a padder is to be chosen for: the oscillator above the signal. */
export interface PadderPlace {
	readonly band: BandLimits;
	readonly ifHz: number;
	readonly pointsHz: TiePoints;
	readonly given: GangGiven;
	/** Adjustable part beside the fixed one; `null`: the padder is fixed. */
	readonly screwF: Range | null;
}

/** A padder's answer, or why no padder does. */
export type PadderAnswer =
	| { readonly kind: 'answer'; readonly answer: PartAnswer }
	| { readonly kind: 'refused'; readonly words: string };

/**
 * The padder of a band: what three-point tracking asks for, which part to fit, and what dial error a part of that size and tolerance leaves with coil and trimmer set right.
 * @param fittedF the fixed part to judge; `null`: the best choice from the stock
 */
export function padderAnswer(
	place: PadderPlace,
	fittedF: number | null,
	toleranceShare: number,
	stock: Stock,
): PadderAnswer {
	const { band, ifHz, pointsHz, given, screwF } = place;
	const made = trackingParts(pointsHz, band, ifHz, 'above', given);
	if (made.kind === 'refused') return { kind: 'refused', words: trackingRefusalWords(made) };
	const { padderF, inductanceH, trimmerF } = made.padded;
	const middleF = screwF ? (screwF.least + screwF.most) / 2 : 0;
	const fixedF = padderF - middleF;
	if (!(fixedF > 0)) return { kind: 'answer', answer: screwAlone(padderF, middleF) };
	const choices = choicesFor('capacitance', fixedF, stock, Number.POSITIVE_INFINITY);
	// One part within half its tolerance is as good as a nearer pair.
	const alone = choices.find(({ joint }) => joint === 'alone');
	const choice = alone && Math.abs(alone.offShare) <= toleranceShare / 2 ? alone : choices[0];
	const judgedF = fittedF ?? choice?.value ?? fixedF;
	const bestHz = Math.max(...trackingPeaks(band, pointsHz, ifHz, 'above').map(({ errorHz }) => Math.abs(errorHz)));
	const reachF = { least: judgedF + (screwF?.least ?? 0), most: judgedF + (screwF?.most ?? 0) };
	const worstOf = (share: number): number | null => {
		const partF = judgedF * (1 + share);
		const least = partF + (screwF?.least ?? 0);
		const most = partF + (screwF?.most ?? 0);
		const set = fixedPadder(Math.min(Math.max(padderF, least), most), pointsHz, band, ifHz, made.straightH, given);
		return set && Math.abs(set.worstErrorHz);
	};
	const ends = [0, -toleranceShare, toleranceShare].map(worstOf);
	const left = ends.some((one) => one === null) ? null : Math.max(...ends.map((one) => one ?? 0));
	const judgedWords = fittedF === null && choice ? choiceWords('capacitance', choice) : capacitanceWords(judgedF);
	const leftWords =
		left === null
			? 'coil and trimmer cannot make both ends right with it'
			: `${(left / 1e3).toFixed(1)} kc at worst with coil and trimmer set right at both ends; ${(bestHz / 1e3).toFixed(1)} kc with the padder as wanted`;
	return {
		kind: 'answer',
		answer: {
			figures: {
				wantedF: padderF,
				fixedF,
				fittedF: judgedF,
				reachF: [reachF.least, reachF.most],
				toleranceShare,
				worstErrorHz: left,
				bestWorstErrorHz: bestHz,
				oscillator: { inductanceH, trimmerF },
				antenna: { inductanceH: made.straightH },
			},
			lines: [
				{ name: 'wanted', words: `${capacitanceWords(padderF)} in all` },
				{
					name: 'fit',
					words: `${judgedWords}${screwF ? `, beside the screw of ${capacitanceWords(screwF.least)} to ${capacitanceWords(screwF.most)}` : ''}`,
				},
				{ name: 'leaves', words: leftWords },
				{
					name: 'coils',
					words: `antenna ${inductanceWords(made.straightH)}, oscillator ${inductanceWords(inductanceH)}`,
				},
				{
					name: 'trimmer',
					words: `${capacitanceWords(trimmerF)} across the ${given.network}, strays there counted in`,
				},
			],
			sheetWords: `Padder ${capacitanceWords(padderF)} for ${frequencyWords(band.lowHz, 'US')} to ${frequencyWords(band.highHz, 'US')}, IF ${frequencyWords(ifHz, 'US')}: fitted ${judgedWords}, \u00b1${percentWords(toleranceShare)}.`,
			toleranceWords:
				'Gang and strays taken as given. The padder goes with the gang\u2019s size: a gang 5 % larger wants a padder about 5 % larger.',
			sourceWords: 'Three-point tracking in closed form; tie points for the least kilocycles unless others were given.',
			cautions: [
				'In some sets the padder carries plate voltage: discharge and prove it dead first, and fit a part rated for the full B-plus at least.',
				'Silver mica or another part of low drift: a padder that wanders moves the low end of the dial.',
			],
		},
	};
}

function screwAlone(padderF: number, middleF: number): PartAnswer {
	return {
		figures: { wantedF: padderF, fixedF: null, middleF },
		lines: [
			{ name: 'wanted', words: `${capacitanceWords(padderF)} in all` },
			{ name: 'fit', words: 'no fixed capacitor: the middle of the screw is that much already' },
		],
		sheetWords: `Padder ${capacitanceWords(padderF)}: the screw alone.`,
		toleranceWords: 'Gang and strays taken as given.',
		sourceWords: 'Three-point tracking in closed form.',
		cautions: [],
	};
}
