import type { Estimate } from '#core/numeric/estimate.ts';
import { meanOf, scatterDb } from './steadiness.ts';

/** What a hand on the adjuster does to the level without turning anything, decibels. */
export interface Disturbance {
	/** How far the level steps when the tool touches, without its sign. */
	readonly stepDb: Estimate;
	/** How far it moves to and fro within five seconds, one way, the tool on or off, whichever is more. */
	readonly flutterDb: number;
}

/** Readings averaged against their noise before flutter is looked for: half a second. */
const smoothed = 5;
/** Readings that each half of the check needs: three of its five seconds. */
const leastFrames = 30;
/**
 * A fall below this is never told, however quiet the meter; what a hand does comes on top.
 * The three figures are chosen by simulated turns: with steps or flutter up to 0.8 dB fewer than one turn in 200 is told before its peak.
 */
const leastFallDb = 0.3;
const perStep = 1.5;
const perFlutter = 3;

/** To and fro of a level beyond its scatter, one way: a sine of amplitude A spreads by A over the root of two. */
function flutterOf(levelsDb: readonly number[]): number {
	const means = levelsDb.slice(smoothed - 1).map((_, index) => meanOf(levelsDb.slice(index, index + smoothed)));
	const middle = meanOf(means);
	const noise = scatterDb(levelsDb) ** 2 / smoothed;
	const spread = means.reduce((sum, mean) => sum + (mean - middle) ** 2, 0) / means.length;
	return Math.sqrt(2 * Math.max(0, spread - noise));
}

/**
 * The disturbance of the hand, from five seconds of hands off and five seconds with the tool resting on the adjuster; `null` when either is too short.
 * @param offDb readings with hands off, ten a second
 * @param onDb readings with the tool on, nothing turned
 */
export function disturbanceOf(offDb: readonly number[], onDb: readonly number[]): Disturbance | null {
	if (offDb.length < leastFrames || onDb.length < leastFrames) return null;
	return {
		stepDb: {
			value: Math.abs(meanOf(onDb) - meanOf(offDb)),
			uncertainty: Math.hypot(scatterDb(onDb) / Math.sqrt(onDb.length), scatterDb(offDb) / Math.sqrt(offDb.length)),
		},
		flutterDb: Math.max(flutterOf(offDb), flutterOf(onDb)),
	};
}

/**
 * The least fall that is told, decibels: above what the hand does by itself.
 * @param disturbance `null` when it was not measured
 * @example leastToldDb({ stepDb: { value: 0.4, uncertainty: 0.01 }, flutterDb: 0 }) // => ~0.9
 */
export function leastToldDb(disturbance: Disturbance | null): number {
	if (disturbance === null) return leastFallDb;
	return leastFallDb + Math.max(perStep * disturbance.stepDb.value, perFlutter * disturbance.flutterDb);
}
