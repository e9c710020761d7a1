import type { CurvePoint } from '#core/estimate/level-noise.ts';
import type { SweepRole } from '#record/sweep-reading.ts';

/** Offsets from an IF of 455 kc of a coarse sweep, in the order of their worth; other IFs have theirs in proportion. */
const coarseHz = [0, -6e3, 6e3, -12e3, 12e3, -3e3, 3e3, -9e3, 9e3, -18e3, 18e3, -25e3, 25e3];
const coarseIfHz = 455e3;
/** After a setting, beside its mark: one point on either flank (chosen by trial: with the mark alone the circuits of a virtual set end nearly twice as far off). */
const flanksHz = [-5e3, 5e3];
/** Points that a base sweep needs; readings further down than this say little (chosen). */
const enough = 31;
const deepDb = 40;
/** Points after a nudge, and the band of the sweep before that they are spread over: of all bands tried this one has the least bound of Cramer and Rao on the circuits (docs/if-curve.md). */
const enoughAfterNudge = 9;
const nudgeBandDb = 20;

/** Step that a generator is set to: half a kilocycle at 455 kc, a round number about as fine a share at others (chosen). */
function gridHz(ifHz: number): number {
	const wanted = ifHz / 910;
	const decade = 10 ** Math.floor(Math.log10(wanted));
	return [5, 2, 1].map((digit) => digit * decade).find((step) => step <= wanted * 1.001) ?? decade;
}

const onGrid = (frequencyHz: number, stepHz: number): number => Math.round(frequencyHz / stepHz) * stepHz;

const isRead = (points: readonly CurvePoint[], frequencyHz: number, stepHz: number): boolean =>
	points.some((point) => Math.abs(point.frequencyHz - frequencyHz) < stepHz / 2);

/** Middle of the gap where a further point tells most: wide gaps, more where the curve is high or bends. */
function widestGapHz(points: readonly CurvePoint[], passedHz: readonly number[], stepHz: number): number | null {
	const topDb = Math.max(...points.map(({ levelDb }) => levelDb));
	let best: { atHz: number; worth: number } | null = null;
	for (let place = 1; place < points.length; place++) {
		const [low, high] = [points[place - 1] as CurvePoint, points[place] as CurvePoint];
		const widthHz = high.frequencyHz - low.frequencyHz;
		if (widthHz < 2 * stepHz) continue;
		const belowDb = topDb - Math.max(low.levelDb, high.levelDb);
		const worth = widthHz * Math.max(0.1, 1 - belowDb / deepDb);
		const atHz = onGrid((low.frequencyHz + high.frequencyHz) / 2, stepHz);
		if (!isRead(points, atHz, stepHz) && !passedHz.includes(atHz) && (best === null || worth > best.worth))
			best = { atHz, worth };
	}
	return best?.atHz ?? null;
}

/** Where a curve that falls outwards crosses a level, between its last point above and the next beyond; the outermost point where it does not fall so far. */
function edgeHz(outwards: readonly CurvePoint[], levelDb: number): number {
	const place = outwards.findLastIndex((point) => point.levelDb >= levelDb);
	const [inside, beyond] = [outwards[place] as CurvePoint, outwards[place + 1]];
	if (!beyond) return inside.frequencyHz;
	const share = (inside.levelDb - levelDb) / (inside.levelDb - beyond.levelDb);
	return inside.frequencyHz + share * (beyond.frequencyHz - inside.frequencyHz);
}

/** Frequencies after a nudge: evenly over the upper part of the sweep before, in the order of the dial. */
function afterNudgeHz(before: readonly CurvePoint[], stepHz: number): readonly number[] {
	const edgeDb = Math.max(...before.map(({ levelDb }) => levelDb)) - nudgeBandDb;
	const lowHz = edgeHz(before.toReversed(), edgeDb);
	const highHz = edgeHz(before, edgeDb);
	return Array.from({ length: enoughAfterNudge }, (_, index) =>
		onGrid(lowHz + ((highHz - lowHz) * index) / (enoughAfterNudge - 1), stepHz),
	);
}

/**
 * The frequency to read next: coarse at first, then where the curve needs points; `null` when the sweep has enough.
 * @param points ascending in frequency
 * @param before the sweep that was read last, ascending; a sweep after a nudge follows it
 * @param passedHz frequencies that gave no reading and are not proposed again
 */
export function nextFrequencyHz(
	points: readonly CurvePoint[],
	ifHz: number,
	role: SweepRole,
	before: readonly CurvePoint[],
	passedHz: readonly number[] = [],
): number | null {
	const stepHz = gridHz(ifHz);
	const isNudge = role === 'nudge' && before.length > 1;
	const plan = isNudge
		? afterNudgeHz(before, stepHz)
		: (role === 'setting' ? flanksHz : coarseHz).map((offsetHz) =>
				onGrid(ifHz + (offsetHz * ifHz) / coarseIfHz, stepHz),
			);
	const planned = plan.find((hz) => !isRead(points, hz, stepHz) && !passedHz.includes(hz));
	if (planned !== undefined) return planned;
	return isNudge || role === 'setting' || points.length >= enough ? null : widestGapHz(points, passedHz, stepHz);
}
