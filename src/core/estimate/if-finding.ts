/** Two answers about an unknown IF that are never mixed: where the strip is now, and what it was designed for. */
import type { Estimate } from '#core/numeric/estimate.ts';
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
	/** A whistle that stays at its place on the dial whatever is tuned: twice the IF, three times when that fits the rest better. */
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

function weighedMean(values: readonly Estimate[]): PresentIf {
	const weights = values.map(({ uncertainty }) => 1 / (uncertainty as number) ** 2);
	const whole = weights.reduce((sum, weight) => sum + weight, 0);
	const mean = values.reduce((sum, { value }, k) => sum + value * (weights[k] as number), 0) / whole;
	const square = values.reduce((sum, { value }, k) => sum + (value - mean) ** 2 * (weights[k] as number), 0);
	const perDegree = square / Math.max(values.length - 1, 1);
	return {
		ifHz: { value: mean, uncertainty: Math.sqrt(Math.max(perDegree, 1) / whole) },
		disagrees: perDegree > 6,
	};
}

/**
 * The IF as found: where the strip is now. None of these ways says what it should be.
 * @param evidence at least one
 */
export function ifAsFound(evidence: readonly IfEvidence[]): PresentIf {
	const others = evidence.filter(({ kind }) => kind !== 'whistle');
	const anchor = others.length > 0 ? weighedMean(others.map((one) => presentIf(one, 1))).ifHz.value : null;
	const harmonic = (one: IfEvidence): number => {
		if (one.kind !== 'whistle' || anchor === null) return 2;
		const off = (times: number): number => Math.abs(one.frequencyHz / times - anchor);
		return off(3) < off(2) ? 3 : 2;
	};
	return weighedMean(evidence.map((one) => presentIf(one, harmonic(one))));
}

/** One IF that a set may have been designed for. */
export interface DesignedIf {
	readonly ifHz: number;
	readonly probability: number;
}

/** How far strips stray from their design (chosen): most by drift, some by hands. */
const astray = [
	{ share: 0.8, spreadHz: 6e3 },
	{ share: 0.2, spreadHz: 25e3 },
] as const;

/** An IF on no list lies anywhere here. */
const offList = { lowHz: 100e3, highHz: 480e3 } as const;

/**
 * IFs that a set may have been designed for, likeliest first, with what is on no list; the probabilities add up to 1 with it.
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
	const steps = 380;
	const spanHz = offList.highHz - offList.lowHz;
	let rest = 0;
	for (let step = 0; step < steps; step++)
		rest += (offListShare / steps) * fits(offList.lowHz + (spanHz * (step + 0.5)) / steps);
	const whole = list.reduce((sum, { weight }) => sum + weight, rest);
	return {
		list: list
			.map(({ ifHz, weight }) => ({ ifHz, probability: weight / whole }))
			.sort((one, other) => other.probability - one.probability),
		restProbability: rest / whole,
	};
}

function density({ value, uncertainty }: Estimate, atHz: number): number {
	const spread = uncertainty ?? 1e3;
	return Math.exp(-(((atHz - value) / spread) ** 2) / 2) / spread;
}

function astrayDensity({ value, uncertainty }: Estimate, ifHz: number): number {
	return astray.reduce(
		(sum, { share, spreadHz }) =>
			sum + share * density({ value, uncertainty: Math.hypot(uncertainty ?? 0, spreadHz) }, ifHz),
		0,
	);
}

/** An oscillator coil is known to this; the dial's word about the IF as designed is no better (1 % of coil is half a per cent of its frequency, 6.8 kc at 1,360 kc). */
const dialSpreadHz = 7e3;

/**
 * What the dial says of the IF as designed: the scale was drawn for an oscillator that lies that far from it. Mean over the marks of oscillator less mark.
 * True as far as trimmer, padder and coil are what they were; `null` without readings.
 * @param found the IF as found: the oscillator is what is heard plus it
 */
export function ifFromDial(
	marks: readonly { readonly dialHz: number; readonly heardHz: number }[],
	found: Estimate,
): Estimate | null {
	if (marks.length === 0) return null;
	const off = marks.map(({ dialHz, heardHz }) => heardHz + found.value - dialHz);
	const mean = off.reduce((sum, one) => sum + one, 0) / off.length;
	const scatter = Math.sqrt(off.reduce((sum, one) => sum + (one - mean) ** 2, 0) / off.length);
	return { value: mean, uncertainty: Math.hypot(dialSpreadHz, scatter, found.uncertainty ?? 0) };
}
