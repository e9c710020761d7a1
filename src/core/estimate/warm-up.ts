import type { Estimate } from '#core/numeric/estimate.ts';

/** A frequency read at a time since the generator was switched on. */
export interface DriftReading {
	readonly atS: number;
	readonly frequencyHz: number;
}

/** How a generator comes to rest. */
export interface WarmUp {
	/** Drift over the window before each reading, and over the last three readings where the window holds fewer, hertz a second. */
	readonly drifts: readonly { readonly atS: number; readonly driftHzPerS: Estimate }[];
	/** From here on the generator drifts by less than the limit in a window; `null` when it does not yet. */
	readonly readyAtS: number | null;
}

/** So many readings tell a line and what they scatter about it. */
const leastReadings = 3;

/** Slope of a straight line through readings, with its uncertainty from what they scatter about it. */
function slope(readings: readonly DriftReading[]): Estimate {
	const count = readings.length;
	const meanS = readings.reduce((sum, { atS }) => sum + atS, 0) / count;
	const meanHz = readings.reduce((sum, { frequencyHz }) => sum + frequencyHz, 0) / count;
	let squares = 0;
	let product = 0;
	for (const { atS, frequencyHz } of readings) {
		squares += (atS - meanS) ** 2;
		product += (atS - meanS) * (frequencyHz - meanHz);
	}
	const value = product / squares;
	const rest = readings.reduce(
		(sum, { atS, frequencyHz }) => sum + (frequencyHz - meanHz - value * (atS - meanS)) ** 2,
		0,
	);
	return { value, uncertainty: count > 2 ? Math.sqrt(rest / (count - 2) / squares) : null };
}

/**
 * When a generator is ready: from the first time after which a straight line through the readings of each window before, and never through fewer than three, moves by less than the limit.
 * @param readings in order of time
 * @param limitHz most that it may drift in a window
 */
export function warmUp(readings: readonly DriftReading[], limitHz: number, windowS: number): WarmUp {
	const first = readings[0]?.atS ?? 0;
	const drifts = readings.flatMap(({ atS }, k) => {
		if (k + 1 < leastReadings || atS - first < windowS) return [];
		const begin = readings.findIndex((reading) => reading.atS >= atS - windowS);
		// What comes to rest has drifted faster earlier: readings further apart than the window never flatter it.
		return [{ atS, driftHzPerS: slope(readings.slice(Math.min(begin, k + 1 - leastReadings), k + 1)) }];
	});
	const late = drifts.findLastIndex(({ driftHzPerS }) => Math.abs(driftHzPerS.value) * windowS >= limitHz);
	return { drifts, readyAtS: drifts[late + 1]?.atS ?? null };
}
