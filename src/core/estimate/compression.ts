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

/** The law between input and reading is a chain of straight pieces this long, over at most so much below the top, in decibels (chosen). */
const knotDb = 3;
const mostDeepDb = 45;

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
		add(row, 0, 0.25);
		if (knot === 0 || knot === count - 1) continue;
		row[knot] = -2;
		row[knot - 1] = 1;
		row[knot + 1] = 1;
		add(row, 0, 60);
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
		({ weakDb, sigmaDb }) => weakDb > topDb - mostDeepDb && sigmaDb < 1,
	);
	const top = pairs.filter(({ strongDb }) => strongDb > topDb - 2);
	if (pairs.length < 5 || top.length === 0) return null;
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
