import type { Estimate } from '#core/numeric/estimate.ts';

/** What a meter that does not say its uncertainty is taken for, decibels (chosen: a needle read with care). */
export const unstatedDb = 0.1;
/** Readings of a live meter that are looked at together: one second. */
const steadyFrames = 10;
/** A level that moves less than this in half a second stands still (chosen: what the needle shows). */
const stillDb = 0.05;

/** Mean of readings. */
export function meanOf(levelsDb: readonly number[]): number {
	return levelsDb.reduce((sum, level) => sum + level, 0) / levelsDb.length;
}

/**
 * Standard deviation of one reading in decibels, from second differences, so that a steady rise or fall does not count as noise.
 * For white noise the second difference has six times its variance; the median of its size stands 0.6745 deviations up.
 * @example scatterDb([0, 1, 2, 3]) // => 0
 */
export function scatterDb(levelsDb: readonly number[]): number {
	const sizes = levelsDb
		.slice(2)
		.map((level, index) => Math.abs(level - 2 * (levelsDb[index + 1] as number) + (levelsDb[index] as number)))
		.sort((a, b) => a - b);
	return (sizes[sizes.length >> 1] ?? 0) / (0.6745 * Math.sqrt(6));
}

/**
 * The level at which a live meter has settled, in its own decibels, or `null` while it has not:
 * the means of the last two half seconds agree within what their scatter explains.
 * @param uncertaintyDb standard uncertainty that the meter states for one reading
 */
export function settledLevelDb(levelsDb: readonly number[], uncertaintyDb: number): Estimate | null {
	if (levelsDb.length < steadyFrames) return null;
	const last = levelsDb.slice(-steadyFrames);
	const half = steadyFrames / 2;
	const sigmaDb = Math.max(uncertaintyDb, scatterDb(last));
	const movedDb = Math.abs(meanOf(last.slice(half)) - meanOf(last.slice(0, half)));
	if (movedDb > Math.max(stillDb, 3 * sigmaDb * Math.sqrt(2 / half))) return null;
	return { value: meanOf(last), uncertainty: sigmaDb / Math.sqrt(steadyFrames) };
}
