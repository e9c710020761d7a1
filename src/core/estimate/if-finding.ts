/** Two answers about an unknown IF that are never mixed: where the strip is now, and what it was designed for. */
import type { OscillatorSide } from '#core/circuit/tracking-curve.ts';
import type { Estimate } from '#core/numeric/estimate.ts';
import { chiSquaredDeviates } from './fit-gate.ts';
import { offListShare, type SetOrigin, usedIfs } from './used-ifs.ts';

/** One way to the IF as it is now. */
export type IfEvidence =
	/** The signal and its image, at one setting of the dial: two IFs apart. */
	| { readonly kind: 'image pair'; readonly lowHz: number; readonly highHz: number; readonly uncertaintyHz: number }
	/** The oscillator by counter, and what comes in. */
	| {
			readonly kind: 'oscillator';
			readonly oscillatorHz: number;
			readonly heardHz: number;
			readonly uncertaintyHz: number;
	  }
	/** A whistle that stays at its place on the dial whatever is tuned: a harmonic of the IF that comes back from the detector. */
	| { readonly kind: 'whistle'; readonly frequencyHz: number; readonly uncertaintyHz: number }
	| { readonly kind: 'sweep'; readonly peakHz: number; readonly uncertaintyHz: number };

/** The present IF by one way. */
function presentIf(evidence: IfEvidence, times: number): Estimate {
	switch (evidence.kind) {
		case 'image pair':
			// Two settings of one generator: each has its own error.
			return {
				value: Math.abs(evidence.highHz - evidence.lowHz) / 2,
				uncertainty: evidence.uncertaintyHz / Math.SQRT2,
			};
		case 'oscillator':
			return { value: Math.abs(evidence.oscillatorHz - evidence.heardHz), uncertainty: evidence.uncertaintyHz };
		case 'whistle':
			return { value: evidence.frequencyHz / times, uncertainty: evidence.uncertaintyHz / times };
		case 'sweep':
			return { value: evidence.peakHz, uncertainty: evidence.uncertaintyHz };
	}
}

/** The present IF from all evidence of it. */
export interface PresentIf {
	readonly ifHz: Estimate;
	/** The ways differ by more than their errors allow: one of them is of something else. */
	readonly disagrees: boolean;
}

/** Ways that differ are called so when chance alone does it less often than once in a hundred times (common practice), as {@link chiSquaredDeviates} counts. */
const chanceDeviates = 2.33;

/** Where the ways differ by more than their errors, their mean is as uncertain as they differ (Birge's ratio, common practice). */
function weighedMean(values: readonly Estimate[]): PresentIf {
	const weights = values.map(({ uncertainty }) => 1 / (uncertainty as number) ** 2);
	const whole = weights.reduce((sum, weight) => sum + weight, 0);
	const mean = values.reduce((sum, { value }, k) => sum + value * (weights[k] as number), 0) / whole;
	const square = values.reduce((sum, { value }, k) => sum + (value - mean) ** 2 * (weights[k] as number), 0);
	const degrees = values.length - 1;
	const perDegree = square / Math.max(degrees, 1);
	return {
		ifHz: { value: mean, uncertainty: Math.sqrt(Math.max(perDegree, 1) / whole) },
		disagrees: degrees > 0 && chiSquaredDeviates(perDegree, degrees) > chanceDeviates,
	};
}

/** The lowest harmonic that lies on a dial, as the IF itself lies off it; and the highest: nine times 175 kc is the last in the broadcast band. */
const leastTimes = 2;
const mostTimes = 9;

/** Which harmonic of about `nearHz` lies nearest to a whistle. */
const timesOf = (whistleHz: number, nearHz: number): number =>
	Math.min(mostTimes, Math.max(leastTimes, Math.round(whistleHz / nearHz)));

/** The present IF when it is about `nearHz`, by which whistles are counted. */
const foundNear = (evidence: readonly IfEvidence[], nearHz: number): PresentIf =>
	weighedMean(evidence.map((one) => presentIf(one, one.kind === 'whistle' ? timesOf(one.frequencyHz, nearHz) : 1)));

/** An IF whose harmonics all whistles are, the lowest of them as low a harmonic as goes: the second where nothing tells. */
function ifOfWhistles(whistles: readonly IfEvidence[]): number {
	const lowestHz = Math.min(...whistles.map((one) => presentIf(one, 1).value));
	for (let times = leastTimes; times <= mostTimes; times++)
		if (!foundNear(whistles, lowestHz / times).disagrees) return lowestHz / times;
	return lowestHz / leastTimes;
}

/**
 * The IF as found: where the strip is now. None of these ways says what it should be, nor whether the oscillator lies above the signal or below it.
 * A whistle is the harmonic that fits the other ways; whistles alone are harmonics of one IF, the lowest of them the second where they leave it open.
 * @param evidence at least one
 */
export function ifAsFound(evidence: readonly IfEvidence[]): PresentIf {
	const others = evidence.filter(({ kind }) => kind !== 'whistle');
	const nearHz =
		others.length > 0 ? weighedMean(others.map((one) => presentIf(one, 1))).ifHz.value : ifOfWhistles(evidence);
	return foundNear(evidence, nearHz);
}

/** One IF that a set may have been designed for. */
export interface DesignedIf {
	readonly ifHz: number;
	readonly probability: number;
}

/**
 * How far strips stray from their design: most by drift, some by hands; 20 and 40 kc off are told of [trade-forums].
 * The figures are chosen, and little hangs on them: with 4 to 9 kc, 15 to 40 kc and shares of 0.6 to 0.95, against 3,000 drawn sets that strayed by other laws
 * than believed, claims above 80 per cent were right in 95 to 98 of a hundred. The wide part is needed: without it the true IF of a tampered set was believed in least.
 */
const astray = [
	{ share: 0.8, spreadHz: 6e3 },
	{ share: 0.2, spreadHz: 25e3 },
] as const;

/** Where an IF can lie that is on no list: anywhere that a set of this kind has its IF, as likely in one octave as in another. */
export const ifLimits = { lowHz: 20e3, highHz: 2e6 } as const;
/** Steps of 0.3 per cent: nowhere longer than the narrowest stray. */
const offListSteps = 1500;

/**
 * IFs that a set may have been designed for, likeliest first, with what is on no list; the probabilities add up to 1 with it. Where no IF at all fits, all is left to what is on no list.
 * @param found the IF as found, `null` when it is not known
 * @param fromDial what oscillator and dial say of the design, `null` when they were not read
 */
export function ifAsDesigned(
	found: Estimate | null,
	fromDial: Estimate | null,
	origin: SetOrigin,
): { readonly list: readonly DesignedIf[]; readonly restProbability: number } {
	const fits = (ifHz: number): number =>
		(found ? astrayDensity(found, ifHz) : 1) * (fromDial ? density(fromDial, ifHz) : 1);
	const list = usedIfs(origin).map(({ ifHz, weight }) => ({ ifHz, weight: weight * fits(ifHz) }));
	const span = ifLimits.highHz / ifLimits.lowHz;
	let rest = 0;
	for (let step = 0; step < offListSteps; step++)
		rest += (offListShare / offListSteps) * fits(ifLimits.lowHz * span ** ((step + 0.5) / offListSteps));
	rest = Math.max(rest, Number.MIN_VALUE);
	const whole = list.reduce((sum, { weight }) => sum + weight, rest);
	return {
		list: list
			.map(({ ifHz, weight }) => ({ ifHz, probability: weight / whole }))
			.sort((one, other) => other.probability - one.probability),
		restProbability: rest / whole,
	};
}

/** An IF whose error is not said is taken to be known as well as a service generator that was checked: the command's own figure (chosen). */
const unsaidHz = 1e3;

function density({ value, uncertainty }: Estimate, atHz: number): number {
	const spread = uncertainty ?? unsaidHz;
	return Math.exp(-(((atHz - value) / spread) ** 2) / 2) / spread;
}

function astrayDensity({ value, uncertainty }: Estimate, ifHz: number): number {
	return astray.reduce(
		(sum, { share, spreadHz }) =>
			sum + share * density({ value, uncertainty: Math.hypot(uncertainty ?? 0, spreadHz) }, ifHz),
		0,
	);
}

/** An oscillator coil is known to this (chosen, by the coil alone); the dial's word about the IF as designed is no better (1 % of coil is half a per cent of its frequency, 6.8 kc at 1,360 kc). */
const dialSpreadHz = 7e3;

/**
 * What the dial says of the IF as designed: the scale was drawn for an oscillator that lies that far from it. Mean over the marks of how far the oscillator lies from its mark.
 * True as far as trimmer, padder and coil are what they were; `null` without readings.
 * @param found the IF as found: the oscillator is what is heard plus it, or less it where it lies below
 * @param side where the oscillator lies on the band of the marks: taken for the other side, the dial's error counts the wrong way round
 */
export function ifFromDial(
	marks: readonly { readonly dialHz: number; readonly heardHz: number }[],
	found: Estimate,
	side: OscillatorSide,
): Estimate | null {
	if (marks.length === 0) return null;
	const way = side === 'above' ? 1 : -1;
	const off = marks.map(({ dialHz, heardHz }) => found.value + way * (heardHz - dialHz));
	const mean = off.reduce((sum, one) => sum + one, 0) / off.length;
	const scatter = Math.sqrt(off.reduce((sum, one) => sum + (one - mean) ** 2, 0) / off.length);
	return { value: mean, uncertainty: Math.hypot(dialSpreadHz, scatter, found.uncertainty ?? 0) };
}
