import type { Estimate } from '#core/numeric/estimate.ts';
import { symmetricSolve } from '#core/numeric/symmetric-solve.ts';
import type { CurvePoint } from './level-noise.ts';
import { smoothAt } from './smooth-curve.ts';

/** What two sweeps at two generator levels say of AVC and detector. */
export interface Compression {
	/** What the step of the generator reads at the top of the curve. */
	readonly stepDb: Estimate;
	/** What a 6 dB step of the generator reads there. */
	readonly of6Db: Estimate;
	/** Input, in decibels on the scale of the reading at the top, that a reading stands for. */
	readonly inputDb: (levelDb: number) => number;
}

/*
 * The figures here are chosen by trial: eight laws (AVC of three delays, two knees of AVC, two of the detector, none), eight random strips each, swept at 61 and 31
 * points with 0.02 to 0.3 dB of scatter, the width at 6 and 20 dB against the strip's own.
 */

/** The law between input and reading is a chain of straight pieces this long, decibels: 5 triples the error of nine in ten widths at 0.02 dB, 1.5 takes no more off than scatter gives back. */
const knotDb = 3;
/** Pairs so far below the top are left out, decibels: from 30 to 60 the widths are the same, and no noise floor of a usable sweep lies higher. */
const mostDeepDb = 45;
/** Pairs that are known no better tell nothing of a step of 6 dB; the others are weighed, so that 0.5 and 3 dB give the same. */
const mostSigmaDb = 1;
/** So near the top its step is read, decibels: within 2 dB a bent law makes it twice as wrong. */
const topReachDb = 1;
/** Fewer pairs are no curve: as many as a local cubic wants. */
const fewestPairs = 5;
/** What each knot's bend is believed to be before anything is read: none, to two decibels for each; from 0.001 to 5 nothing changes but where no pair tells. */
const noBendWeight = 0.25;
/** How straight the bends run on from knot to knot, against readings in decibels: 60 doubles the error of nine in ten widths at 0.1 dB, 2 lets their scatter through. */
const smoothWeight = 10;

/** A reading of the first sweep and of the second at one frequency. */
interface Pair {
	readonly strongDb: number;
	readonly weakDb: number;
	readonly sigmaDb: number;
}

function pairsOf(strong: readonly CurvePoint[], weak: readonly CurvePoint[], meterDb: number): Pair[] {
	const lowHz = (weak[0] as CurvePoint).frequencyHz;
	const highHz = (weak.at(-1) as CurvePoint).frequencyHz;
	const exact = new Map(weak.map((point) => [point.frequencyHz, point]));
	return strong
		.filter(({ frequencyHz }) => frequencyHz >= lowHz && frequencyHz <= highHz)
		.map(({ frequencyHz, levelDb, uncertaintyDb }) => {
			const same = exact.get(frequencyHz);
			const strongSigmaDb = Math.max(meterDb, uncertaintyDb ?? 0);
			if (same) {
				const weakSigmaDb = Math.max(meterDb, same.uncertaintyDb ?? 0);
				return { strongDb: levelDb, weakDb: same.levelDb, sigmaDb: Math.hypot(strongSigmaDb, weakSigmaDb) };
			}
			const between = smoothAt(weak, meterDb, frequencyHz);
			return {
				strongDb: levelDb,
				weakDb: between.levelDb,
				sigmaDb: Math.hypot(strongSigmaDb, between.levelUncertaintyDb),
			};
		});
}

/** How the law bends from knot to knot: decibels of input beyond one for each decibel of reading. */
class Bends {
	readonly #topDb: number;
	readonly count: number;

	constructor(topDb: number, lowestDb: number) {
		this.#topDb = topDb;
		this.count = Math.max(2, Math.ceil((topDb - lowestDb) / knotDb) + 1);
	}

	/** How much of a stretch of reading each knot's straight-sided tent covers; the ends reach on. */
	tents(lowDb: number, highDb: number): Float64Array {
		const shares = new Float64Array(this.count);
		const steps = Math.max(8, Math.ceil(Math.abs(highDb - lowDb)));
		for (let step = 0; step < steps; step++) {
			const levelDb = lowDb + ((highDb - lowDb) * (step + 0.5)) / steps;
			const place = Math.min(this.count - 1.001, Math.max(0, (this.#topDb - levelDb) / knotDb));
			const knot = Math.floor(place);
			shares[knot] = (shares[knot] as number) + ((1 - (place - knot)) * (highDb - lowDb)) / steps;
			shares[knot + 1] = (shares[knot + 1] as number) + ((place - knot) * (highDb - lowDb)) / steps;
		}
		return shares;
	}
}

/** The bend at each knot that explains what the step read at each level, smooth from knot to knot, and none where nothing tells. */
function fittedBends(bends: Bends, pairs: readonly Pair[], stepDb: number): Float64Array {
	const { count } = bends;
	const normal = new Float64Array(count * count);
	const right = new Float64Array(count);
	const add = (row: ArrayLike<number>, value: number, weight: number): void => {
		for (let one = 0; one < count; one++) {
			const share = row[one] as number;
			if (share === 0) continue;
			right[one] = (right[one] as number) + weight * share * value;
			for (let other = 0; other < count; other++) {
				const place = one * count + other;
				normal[place] = (normal[place] as number) + weight * share * (row[other] as number);
			}
		}
	};
	for (const { strongDb, weakDb, sigmaDb } of pairs)
		add(bends.tents(weakDb, strongDb), stepDb - (strongDb - weakDb), 1 / sigmaDb ** 2);
	for (let knot = 0; knot < count; knot++) {
		const row = new Float64Array(count);
		row[knot] = 1;
		add(row, 0, noBendWeight);
		if (knot === 0 || knot === count - 1) continue;
		row[knot] = -2;
		row[knot - 1] = 1;
		row[knot + 1] = 1;
		add(row, 0, smoothWeight);
	}
	return symmetricSolve(normal, right);
}

/**
 * Compares two sweeps of one strip whose generator levels differ by a known step, and finds the law between input and reading that AVC and the detector's knee bend; `null` when the sweeps have too little in common.
 * Every pair of readings at one frequency tells how many decibels of reading the step is worth there; the law is built up from them.
 * @param generatorStepDb how much stronger the generator was for the first sweep; negative when it was weaker
 */
export function compression(
	first: readonly CurvePoint[],
	second: readonly CurvePoint[],
	meterDb: number,
	generatorStepDb = 6,
): Compression | null {
	const [strong, weak] = generatorStepDb > 0 ? [first, second] : [second, first];
	const stepDb = Math.abs(generatorStepDb);
	const topDb = Math.max(...strong.map(({ levelDb }) => levelDb));
	// Pairs near a noise floor tell nothing of the law.
	const pairs = pairsOf(strong, weak, meterDb).filter(
		({ weakDb, sigmaDb }) => weakDb > topDb - mostDeepDb && sigmaDb < mostSigmaDb,
	);
	const top = pairs.filter(({ strongDb }) => strongDb > topDb - topReachDb);
	if (pairs.length < fewestPairs || top.length === 0) return null;
	const bends = new Bends(topDb, Math.min(...pairs.map(({ weakDb }) => weakDb)));
	const bend = fittedBends(bends, pairs, stepDb);
	const read = top.reduce((sum, { strongDb, weakDb }) => sum + strongDb - weakDb, 0) / top.length;
	const uncertainty = Math.hypot(...top.map(({ sigmaDb }) => sigmaDb)) / top.length;
	return {
		stepDb: { value: read, uncertainty },
		of6Db: { value: (read * 6) / stepDb, uncertainty: (uncertainty * 6) / stepDb },
		inputDb: (levelDb) =>
			levelDb + bends.tents(topDb, levelDb).reduce((sum, share, knot) => sum + share * (bend[knot] as number), 0),
	};
}
