import { type AvcLaw, inputOf, outputOf, type ShownLevel } from './avc-law.ts';
import type { Compression } from './compression.ts';
import type { CurvePoint } from './level-noise.ts';

/** How the readings of a meter stand to the decibels in which a curve is judged. */
export interface ReadingScale {
	/** A reading as a point of the curve; `null` where the scale does not reach. */
	readonly curve: (read: CurvePoint) => CurvePoint | null;
	/** What the meter shows for a level of the curve; `null` where the scale does not reach. */
	readonly meter: (levelDb: number) => ShownLevel | null;
}

/** The curve in the meter's own decibels. */
export const asRead: ReadingScale = {
	curve: (read) => read,
	meter: (levelDb) => ({ readingDb: levelDb, slopeDbPerDb: 1 }),
};

/**
 * The curve in decibels at the input, AVC and detector taken out by a law of the set; each point carries what the reading and the law leave unknown.
 * @param meterDb standard uncertainty of a level reading
 */
export function byLaw(law: AvcLaw, meterDb: number): ReadingScale {
	return {
		curve: (read) => {
			const uncertainty = Math.max(meterDb, read.uncertaintyDb ?? 0);
			const input = inputOf(law, { value: read.levelDb, uncertainty });
			return input && { ...read, levelDb: input.value, uncertaintyDb: input.uncertainty };
		},
		meter: (levelDb) => outputOf(law, levelDb),
	};
}

/** The farthest that a level lies from the top of the curve, and the stretch over which the slope is taken, in decibels (chosen). */
const farthestDb = 120;
const stretchDb = 0.5;

/** The curve with AVC and detector taken out by two sweeps at two levels of the generator; its top stands where it was read. */
export function byTwoSweeps({ inputDb }: Pick<Compression, 'inputDb'>, topDb: number): ReadingScale {
	const readingDb = (levelDb: number): number => {
		let low = topDb - farthestDb;
		let high = topDb + farthestDb;
		for (let round = 0; round < 50; round++) {
			const middle = (low + high) / 2;
			if (inputDb(middle) < levelDb) low = middle;
			else high = middle;
		}
		return (low + high) / 2;
	};
	return {
		curve: (read) => ({ ...read, levelDb: inputDb(read.levelDb) }),
		meter: (levelDb) => ({
			readingDb: readingDb(levelDb),
			slopeDbPerDb: (readingDb(levelDb + stretchDb) - readingDb(levelDb - stretchDb)) / (2 * stretchDb),
		}),
	};
}
