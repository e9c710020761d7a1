import type { Estimate } from '#core/numeric/estimate.ts';
import type { CurvePoint } from './level-noise.ts';
import { type SmoothPoint, smoothAt, smoothCurve } from './smooth-curve.ts';

/** Width of a curve so far below its peak, between the outermost crossings. */
export interface Bandwidth {
	readonly belowPeakDb: number;
	readonly lowHz: number;
	readonly highHz: number;
	readonly widthHz: Estimate;
	readonly centreHz: Estimate;
}

/** What an IF curve says without any model of the strip. */
export interface CurveReading {
	readonly peakHz: Estimate;
	readonly peakDb: Estimate;
	/** How far the level at the aimed IF is below the peak; `null` when the sweep does not reach the IF. */
	readonly atIfBelowPeakDb: Estimate | null;
	/** At 3, 6, 20 and 40 dB, as far as the sweep reaches. */
	readonly bandwidths: readonly Bandwidth[];
	readonly slopeDbPerKHzAtIf: Estimate | null;
	/** Level at IF + 5 kc minus level at IF - 5 kc. */
	readonly asymmetryDb5kHz: Estimate | null;
	/** Loss at 9 and 10 kc either side of the IF, from the level at the IF: what an adjacent channel meets. */
	readonly adjacent: readonly { readonly offsetHz: number; readonly belowIfDb: Estimate }[];
	/** Peaks that stand out by more than twice their uncertainty: 1, or 2 and more for a curve with humps. */
	readonly humpsHz: readonly number[];
}

const depthsDb = [3, 6, 20, 40] as const;
const channelOffsetsHz = [-10e3, -9e3, 9e3, 10e3] as const;

/** Where the smooth curve passes a level between two of its points, and how sure that is. */
function crossing(one: SmoothPoint, other: SmoothPoint, levelDb: number): Estimate {
	const share = (levelDb - one.levelDb) / (other.levelDb - one.levelDb);
	const slope = Math.max(1e-9, Math.abs(other.levelDb - one.levelDb) / Math.abs(other.frequencyHz - one.frequencyHz));
	return {
		value: one.frequencyHz + share * (other.frequencyHz - one.frequencyHz),
		uncertainty: Math.max(one.levelUncertaintyDb, other.levelUncertaintyDb) / slope,
	};
}

function bandwidthAt(curve: readonly SmoothPoint[], peakDb: Estimate, belowPeakDb: number): Bandwidth | null {
	const levelDb = peakDb.value - belowPeakDb;
	const first = curve.findIndex((point) => point.levelDb > levelDb);
	const last = curve.findLastIndex((point) => point.levelDb > levelDb);
	if (first <= 0 || last >= curve.length - 1) return null;
	const low = crossing(curve[first - 1] as SmoothPoint, curve[first] as SmoothPoint, levelDb);
	const high = crossing(curve[last + 1] as SmoothPoint, curve[last] as SmoothPoint, levelDb);
	const slopeAt = (place: number): number => Math.max(1e-9, Math.abs((curve[place] as SmoothPoint).slopeDbPerHz));
	// An error of the peak's level moves both edges outward or inward together.
	const byPeak = (peakDb.uncertainty ?? 0) * (1 / slopeAt(first) + 1 / slopeAt(last));
	const own = Math.hypot(low.uncertainty as number, high.uncertainty as number);
	const centreByPeak = ((peakDb.uncertainty ?? 0) / 2) * Math.abs(1 / slopeAt(last) - 1 / slopeAt(first));
	return {
		belowPeakDb,
		lowHz: low.value,
		highHz: high.value,
		widthHz: { value: high.value - low.value, uncertainty: Math.hypot(own, byPeak) },
		centreHz: { value: (high.value + low.value) / 2, uncertainty: Math.hypot(own / 2, centreByPeak) },
	};
}

/** The peak: its frequency is known as well as the readings fix where the slope is nought, and no better than where the level is within its uncertainty of the top. */
function peakOf(curve: readonly SmoothPoint[], place: number): { hz: Estimate; db: Estimate } {
	const top = curve[place] as SmoothPoint;
	const bend = Math.abs(Math.min(top.bendDbPerHzSquared, -1e-12));
	const shiftHz = Math.max(-2000, Math.min(2000, top.slopeDbPerHz / bend));
	const bySlope = top.slopeUncertaintyDbPerHz / bend;
	const near = curve.filter((point) => point.levelDb > top.levelDb - top.levelUncertaintyDb);
	const flatHz = ((near.at(-1) as SmoothPoint).frequencyHz - (near[0] as SmoothPoint).frequencyHz) / Math.sqrt(12);
	return {
		hz: { value: top.frequencyHz + shiftHz, uncertainty: Math.max(Math.min(bySlope, 4 * flatHz), flatHz / 2) },
		db: { value: top.levelDb + (top.slopeDbPerHz * shiftHz) / 2, uncertainty: top.levelUncertaintyDb },
	};
}

/** Places of the curve's tops that stand above the dips beside them by twice the uncertainty. */
function humps(curve: readonly SmoothPoint[]): number[] {
	const kept: number[] = [];
	let lowest = Number.NEGATIVE_INFINITY;
	let top = 0;
	let rising = true;
	for (const [place, { levelDb, levelUncertaintyDb }] of curve.entries()) {
		const step = 2 * Math.SQRT2 * levelUncertaintyDb;
		if (rising) {
			if (levelDb > (curve[top] as SmoothPoint).levelDb) top = place;
			else if (levelDb < (curve[top] as SmoothPoint).levelDb - step) {
				kept.push(top);
				rising = false;
				lowest = levelDb;
			}
		} else if (levelDb < lowest) lowest = levelDb;
		else if (levelDb > lowest + step) {
			rising = true;
			top = place;
		}
	}
	const highest = Math.max(...curve.map(({ levelDb }) => levelDb));
	return kept.filter((place) => (curve[place] as SmoothPoint).levelDb > highest - 20);
}

function difference(one: SmoothPoint, other: SmoothPoint): Estimate {
	return {
		value: one.levelDb - other.levelDb,
		uncertainty: Math.hypot(one.levelUncertaintyDb, other.levelUncertaintyDb),
	};
}

/**
 * Peak, widths, slope, asymmetry and adjacent-channel losses of an IF curve, from local polynomials through its readings.
 * @param points ascending in frequency, at least five frequencies
 * @param meterDb standard uncertainty of a level reading
 */
export function readCurve(points: readonly CurvePoint[], meterDb: number, ifHz: number): CurveReading {
	const curve = smoothCurve(points, meterDb);
	const highest = curve.reduce(
		(best, { levelDb }, place) => (levelDb > (curve[best] as SmoothPoint).levelDb ? place : best),
		0,
	);
	const peak = peakOf(curve, highest);
	const firstHz = (points[0] as CurvePoint).frequencyHz;
	const lastHz = (points.at(-1) as CurvePoint).frequencyHz;
	const at = (frequencyHz: number): SmoothPoint | null =>
		frequencyHz < firstHz || frequencyHz > lastHz ? null : smoothAt(points, meterDb, frequencyHz);
	const middle = at(ifHz);
	const above = at(ifHz + 5e3);
	const below = at(ifHz - 5e3);
	return {
		peakHz: peak.hz,
		peakDb: peak.db,
		atIfBelowPeakDb: middle && {
			value: Math.max(0, peak.db.value - middle.levelDb),
			uncertainty: Math.hypot(middle.levelUncertaintyDb, peak.db.uncertainty ?? 0),
		},
		bandwidths: depthsDb.flatMap((depthDb) => bandwidthAt(curve, peak.db, depthDb) ?? []),
		slopeDbPerKHzAtIf: middle && {
			value: middle.slopeDbPerHz * 1e3,
			uncertainty: middle.slopeUncertaintyDbPerHz * 1e3,
		},
		asymmetryDb5kHz: above && below && difference(above, below),
		adjacent: channelOffsetsHz.flatMap((offsetHz) => {
			const there = at(ifHz + offsetHz);
			return middle && there ? [{ offsetHz, belowIfDb: difference(middle, there) }] : [];
		}),
		humpsHz: humps(curve).map((place) => (curve[place] as SmoothPoint).frequencyHz),
	};
}
