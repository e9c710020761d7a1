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
	/** The stronger sweep with AVC and detector taken out. */
	readonly corrected: readonly CurvePoint[];
}

/** Levels below the top at which the law of set and meter may bend, evenly spaced, in decibels (chosen). */
const knotDb = 3;
const knotCount = 10;

/** How much of a stretch from `lowDb` to `highDb` each knot's straight-sided tent covers. */
function tents(topDb: number, lowDb: number, highDb: number): number[] {
	const steps = 24;
	const shares = new Array<number>(knotCount).fill(0);
	for (let step = 0; step < steps; step++) {
		const levelDb = lowDb + ((highDb - lowDb) * (step + 0.5)) / steps;
		const place = Math.max(0, (topDb - levelDb) / knotDb);
		const low = Math.floor(place);
		if (low >= knotCount) continue;
		shares[low] = (shares[low] as number) + ((1 - (place - low)) * (highDb - lowDb)) / steps;
		if (low + 1 < knotCount) shares[low + 1] = (shares[low + 1] as number) + ((place - low) * (highDb - lowDb)) / steps;
	}
	return shares;
}

/**
 * Compares two sweeps of one strip whose generator levels differ by a known step, and takes AVC and the detector's bend out of the stronger.
 * Every pair of levels at one frequency tells how many decibels of reading the step is worth there; the law between reading and input is built up from them, smooth, straight far below the top.
 * @param generatorStepDb how much stronger the generator was for the first sweep; negative when it was weaker
 */
export function compression(
	first: readonly CurvePoint[],
	second: readonly CurvePoint[],
	meterDb: number,
	generatorStepDb = 6,
): Compression | null {
	const [strong, weak] = generatorStepDb > 0 ? [first, second] : [second, first];
	const step = Math.abs(generatorStepDb);
	const lowHz = (weak[0] as CurvePoint).frequencyHz;
	const highHz = (weak.at(-1) as CurvePoint).frequencyHz;
	const topDb = Math.max(...strong.map(({ levelDb }) => levelDb));
	const exact = new Map(weak.map(({ frequencyHz, levelDb }) => [frequencyHz, levelDb]));
	const pairs = strong
		.filter(({ frequencyHz }) => frequencyHz >= lowHz && frequencyHz <= highHz)
		.map(({ frequencyHz, levelDb }) => {
			const other = exact.get(frequencyHz) ?? smoothAt(weak, meterDb, frequencyHz).levelDb;
			return { strongDb: levelDb, weakDb: other };
		})
		.filter(({ strongDb }) => strongDb > topDb - knotDb * knotCount);
	const top = pairs.filter(({ strongDb }) => strongDb > topDb - 2);
	if (pairs.length < 5 || top.length === 0) return null;
	const sigma = Math.SQRT2 * meterDb;
	const normal = new Float64Array(knotCount * knotCount);
	const right = new Float64Array(knotCount);
	const add = (row: readonly number[], value: number, weight: number): void => {
		for (let one = 0; one < knotCount; one++) {
			const share = row[one] as number;
			if (share === 0) continue;
			right[one] = (right[one] as number) + weight * share * value;
			for (let other = 0; other < knotCount; other++)
				normal[one * knotCount + other] =
					(normal[one * knotCount + other] as number) + weight * share * (row[other] as number);
		}
	};
	for (const { strongDb, weakDb } of pairs)
		add(tents(topDb, Math.min(weakDb, strongDb), strongDb), step - (strongDb - weakDb), 1 / sigma ** 2);
	// Smooth from knot to knot, and straight at the lowest: how much the law may bend (chosen).
	for (let knot = 0; knot < knotCount; knot++) {
		const alone = new Array<number>(knotCount).fill(0);
		alone[knot] = 1;
		add(alone, 0, knot === knotCount - 1 ? 1e4 : 0.25);
		if (knot === 0 || knot === knotCount - 1) continue;
		alone[knot] = -2;
		alone[knot - 1] = 1;
		alone[knot + 1] = 1;
		add(alone, 0, 60);
	}
	const bend = symmetricSolve(normal, right);
	const lowestDb = topDb - knotDb * knotCount;
	const inputDb = (levelDb: number): number =>
		levelDb +
		tents(topDb, lowestDb, Math.max(lowestDb, levelDb)).reduce(
			(sum, share, knot) => sum + share * (bend[knot] as number),
			0,
		);
	const read = top.reduce((sum, { strongDb, weakDb }) => sum + strongDb - weakDb, 0) / top.length;
	const uncertainty = sigma / Math.sqrt(top.length);
	return {
		stepDb: { value: read, uncertainty },
		of6Db: { value: (read * 6) / step, uncertainty: (uncertainty * 6) / step },
		corrected: strong.map((point) => ({ ...point, levelDb: inputDb(point.levelDb) })),
	};
}
