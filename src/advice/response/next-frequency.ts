import type { CurvePoint } from '#core/estimate/level-noise.ts';
import type { SweepRole } from '#record/sweep-reading.ts';

/** Offsets from the IF of a coarse sweep, in the order of their worth, and of the few points after a nudge, in the order of the dial. */
const coarseHz = [0, -6e3, 6e3, -12e3, 12e3, -3e3, 3e3, -9e3, 9e3, -18e3, 18e3, -25e3, 25e3];
const nudgeHz = [-13e3, -9e3, -6e3, -3e3, 0, 3e3, 6e3, 9e3, 13e3];
/** Points that a base sweep needs; readings further down than this say little (chosen). */
const enough = 31;
const deepDb = 40;
/** Generators are set to the half kilocycle (chosen). */
const stepHz = 500;

const isRead = (points: readonly CurvePoint[], frequencyHz: number): boolean =>
	points.some((point) => Math.abs(point.frequencyHz - frequencyHz) < stepHz / 2);

/** Middle of the gap where a further point tells most: wide gaps, more where the curve is high or bends. */
function widestGapHz(points: readonly CurvePoint[], passedHz: readonly number[]): number | null {
	const topDb = Math.max(...points.map(({ levelDb }) => levelDb));
	let best: { atHz: number; worth: number } | null = null;
	for (let place = 1; place < points.length; place++) {
		const [low, high] = [points[place - 1] as CurvePoint, points[place] as CurvePoint];
		const widthHz = high.frequencyHz - low.frequencyHz;
		if (widthHz < 2 * stepHz) continue;
		const belowDb = topDb - Math.max(low.levelDb, high.levelDb);
		const worth = widthHz * Math.max(0.1, 1 - belowDb / deepDb);
		const atHz = Math.round((low.frequencyHz + high.frequencyHz) / 2 / stepHz) * stepHz;
		if (!isRead(points, atHz) && !passedHz.includes(atHz) && (best === null || worth > best.worth))
			best = { atHz, worth };
	}
	return best?.atHz ?? null;
}

/**
 * The frequency to read next: coarse at first, then where the curve needs points; `null` when the sweep has enough.
 * @param points ascending in frequency
 * @param passedHz frequencies that gave no reading and are not proposed again
 */
export function nextFrequencyHz(
	points: readonly CurvePoint[],
	ifHz: number,
	role: SweepRole,
	passedHz: readonly number[] = [],
): number | null {
	const plan = role === 'nudge' ? nudgeHz : coarseHz;
	const planned = plan.find((offsetHz) => !isRead(points, ifHz + offsetHz) && !passedHz.includes(ifHz + offsetHz));
	if (planned !== undefined) return ifHz + planned;
	return role === 'nudge' || points.length >= enough ? null : widestGapHz(points, passedHz);
}
