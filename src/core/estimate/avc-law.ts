import type { Estimate } from '#core/numeric/estimate.ts';

/** One step of the generator and what the meter read there. */
export interface AvcReading {
	/** Known level of the generator, decibels of anything that stays the same. */
	readonly inputDb: number;
	readonly outputDb: number;
	readonly uncertaintyDb: number;
	/** Of the generator's level; absent: known far better than the reading. */
	readonly inputUncertaintyDb?: number | undefined;
}

/** One place of the law. */
export interface AvcPlace extends AvcReading {
	/** Decibels of reading for a decibel of input. */
	readonly slopeDbPerDb: number;
}

/** How a set's reading rises with its input, AVC and detector included: at least four places, both levels ascending. */
export interface AvcLaw {
	readonly places: readonly AvcPlace[];
	/** Input from which the reading rose no more, decibels; `null` when it rose to the end. */
	readonly overloadDb: number | null;
}

const fewest = 4;
/** Flatter than this a reading tells nothing of the input (chosen: 0.03 dB of scatter would be 1.5 dB of input). */
const leastSlopeDbPerDb = 0.02;
/** Share of the difference between the curved and the straight way between two places that stands for what is not known there (chosen; held by a test). */
const betweenShare = 0.5;

/** Readings made one: their mean, weighed by their uncertainties. A level that was set twice is uncertain by the same. */
function mean(readings: readonly AvcReading[]): AvcReading {
	const weights = readings.map(({ uncertaintyDb }) => 1 / Math.max(uncertaintyDb, 1e-6) ** 2);
	const weight = weights.reduce((sum, one) => sum + one, 0);
	const of = (quantity: (one: AvcReading) => number): number =>
		readings.reduce((sum, one, k) => sum + (weights[k] as number) * quantity(one), 0) / weight;
	return {
		inputDb: of(({ inputDb }) => inputDb),
		outputDb: of(({ outputDb }) => outputDb),
		uncertaintyDb: 1 / Math.sqrt(weight),
		inputUncertaintyDb: of(({ inputUncertaintyDb }) => inputUncertaintyDb ?? 0),
	};
}

/** Readings of one input made one each, ascending. */
function pooled(readings: readonly AvcReading[]): AvcReading[] {
	const byInput = new Map<number, AvcReading[]>();
	for (const reading of readings) byInput.set(reading.inputDb, [...(byInput.get(reading.inputDb) ?? []), reading]);
	return [...byInput.values()].map(mean).sort((one, other) => one.inputDb - other.inputDb);
}

/** A fall of the reading within so many standard deviations of the levels is the generator's (chosen). */
const fallSigmas = 2.5;

/** Neighbours made one where the reading falls by no more than their levels are uncertain by: which of them is the stronger is then not known. */
function untangled(points: readonly AvcReading[]): AvcReading[] {
	const rising: AvcReading[] = [];
	for (const point of points) {
		let last = point;
		for (let before = rising.at(-1); before; before = rising.at(-1)) {
			const unsureDb = Math.hypot(before.inputUncertaintyDb ?? 0, last.inputUncertaintyDb ?? 0);
			const fallDb = before.outputDb - last.outputDb;
			if (fallDb < 0 || unsureDb === 0 || fallDb > fallSigmas * unsureDb) break;
			rising.pop();
			last = mean([before, last]);
		}
		rising.push(last);
	}
	return rising;
}

/** Slopes of the monotone cubic through rising points: the harmonic mean of the slopes on both sides, weighed by the steps [fritsch-butland-1984]. */
function slopes(points: readonly AvcReading[]): number[] {
	const steps = points.slice(1).map(({ inputDb }, k) => inputDb - (points[k] as AvcReading).inputDb);
	const rises = points
		.slice(1)
		.map(({ outputDb }, k) => (outputDb - (points[k] as AvcReading).outputDb) / (steps[k] as number));
	return points.map((_, k) => {
		const before = rises[k - 1];
		const after = rises[k];
		if (before === undefined || after === undefined) return (before ?? after) as number;
		const w1 = 2 * (steps[k] as number) + (steps[k - 1] as number);
		const w2 = (steps[k] as number) + 2 * (steps[k - 1] as number);
		return (w1 + w2) / (w1 / before + w2 / after);
	});
}

/**
 * The law from readings at known steps of the generator, in any order; the same step may be read more than once.
 * Where the reading no longer rises the set is overloaded: the law ends there. `null` when fewer than four steps rise.
 */
export function avcLaw(readings: readonly AvcReading[]): AvcLaw | null {
	const points = untangled(pooled(readings));
	const stop = points.findIndex(({ outputDb }, k) => k > 0 && outputDb <= (points[k - 1] as AvcReading).outputDb);
	const rising = stop < 0 ? points : points.slice(0, stop);
	if (rising.length < fewest) return null;
	const slope = slopes(rising);
	return {
		places: rising.map((point, k) => ({ ...point, slopeDbPerDb: slope[k] as number })),
		overloadDb: stop < 0 ? null : (points[stop] as AvcReading).inputDb,
	};
}

/** Reading and slope of the cubic between two places, at a share of the way. */
function between(
	low: AvcPlace,
	high: AvcPlace,
	share: number,
): { readonly outputDb: number; readonly slopeDbPerDb: number } {
	const stepDb = high.inputDb - low.inputDb;
	const riseDb = high.outputDb - low.outputDb;
	const startDb = low.slopeDbPerDb * stepDb;
	const endDb = high.slopeDbPerDb * stepDb;
	const square = 3 * riseDb - 2 * startDb - endDb;
	const cube = startDb + endDb - 2 * riseDb;
	return {
		outputDb: low.outputDb + share * (startDb + share * (square + share * cube)),
		slopeDbPerDb: (startDb + share * (2 * square + 3 * share * cube)) / stepDb,
	};
}

/** The input that a reading came from. Two readings of nearly one level share the law's own errors: they differ by their scatter. */
export interface InputLevel extends Estimate {
	/** What the reading's own uncertainty comes to at the input, decibels; `null` where it is not known. */
	readonly scatterDb: number | null;
}

/**
 * The input that a reading came from, decibels as the law counts them: the reading with AVC and detector taken out.
 * `null` where the law does not reach, and where it is so flat that the reading tells nothing.
 */
export function inputOf({ places }: AvcLaw, reading: Estimate): InputLevel | null {
	const at = places.findIndex(({ outputDb }, k) => {
		const next = places[k + 1];
		return next !== undefined && outputDb <= reading.value && reading.value <= next.outputDb;
	});
	const low = places[at];
	const high = places[at + 1];
	if (!low || !high) return null;
	let least = 0;
	let most = 1;
	for (let round = 0; round < 50; round++) {
		const middle = (least + most) / 2;
		if (between(low, high, middle).outputDb < reading.value) least = middle;
		else most = middle;
	}
	const share = (least + most) / 2;
	const { slopeDbPerDb } = between(low, high, share);
	if (!(slopeDbPerDb > leastSlopeDbPerDb)) return null;
	const stepDb = high.inputDb - low.inputDb;
	const straight = (reading.value - low.outputDb) / (high.outputDb - low.outputDb);
	const unknownDb = betweenShare * Math.abs(share - straight) * stepDb;
	const lawDb = Math.hypot((1 - share) * low.uncertaintyDb, share * high.uncertaintyDb);
	const levelDb = Math.hypot((1 - share) * (low.inputUncertaintyDb ?? 0), share * (high.inputUncertaintyDb ?? 0));
	return {
		value: low.inputDb + share * stepDb,
		uncertainty:
			reading.uncertainty === null
				? null
				: Math.hypot(Math.hypot(reading.uncertainty, lawDb) / slopeDbPerDb, unknownDb, levelDb),
		scatterDb: reading.uncertainty === null ? null : reading.uncertainty / slopeDbPerDb,
	};
}

/** What a meter shows for a level on another scale. */
export interface ShownLevel {
	readonly readingDb: number;
	/** Decibels that the meter moves for one of the other scale. */
	readonly slopeDbPerDb: number;
}

/** What an input reads, AVC and detector included: the law the other way. `null` outside its places. */
export function outputOf({ places }: AvcLaw, inputDb: number): ShownLevel | null {
	const at = places.findIndex((place, k) => {
		const next = places[k + 1];
		return next !== undefined && place.inputDb <= inputDb && inputDb <= next.inputDb;
	});
	const low = places[at];
	const high = places[at + 1];
	if (!low || !high) return null;
	const { outputDb, slopeDbPerDb } = between(low, high, (inputDb - low.inputDb) / (high.inputDb - low.inputDb));
	return { readingDb: outputDb, slopeDbPerDb };
}

/**
 * A step of 6 dB at the generator that reads otherwise by no more than this is passed through as it is, decibels (chosen). A shortfall of so much widens
 * the -6 dB band by about 2 % (closed form of a compressing level law), which is less than the eye sees.
 */
export const stepWithinDb = 0.3;
const holdsSigmas = 2.5;

/**
 * Whether a law makes 6 dB of a step of 6 dB at the generator, within what is known of it.
 * @param step decibels at the input by the law
 */
export function isStepHeld(step: Estimate): boolean {
	return Math.abs(step.value - 6) <= Math.max(stepWithinDb, holdsSigmas * (step.uncertainty ?? 0));
}
