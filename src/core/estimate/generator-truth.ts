/** What a generator really gives where its dial says something else: from zero beats with stations or a counter. */
import type { Estimate } from '#core/numeric/estimate.ts';

/** One check of a generator's dial. */
export interface GeneratorCheck {
	/** What its dial says. */
	readonly readsHz: number;
	readonly trueHz: number;
	/** Of the pair: how finely the dial was read. */
	readonly uncertaintyHz: number;
	/** Seconds since it was made. */
	readonly ageS: number;
}

/** A service generator's own accuracy where nothing was checked: few are better than 1 %, [eddystone-659]. */
const uncheckedShare = 0.01;
/** How far a correction may wander in a year (chosen: a tenth of what an unchecked one may be off). */
const yearShare = 0.001;
const yearS = 365 * 86_400;
/** A check is worth less away from its place: a band of a factor of two from it is as good as unchecked (chosen). */
const reach = Math.log(2);

/**
 * The true frequency of a generator whose dial says `readsHz`. Corrections run straight between checks by the logarithm of the frequency; beyond the last one they stay.
 * @param checks in any order; none: the dial is believed, with what service generators are worth
 */
export function generatorTruth(checks: readonly GeneratorCheck[], readsHz: number): Estimate {
	const sorted = [...checks].sort((a, b) => a.readsHz - b.readsHz);
	const here = Math.log(readsHz);
	const above = sorted.find((check) => check.readsHz >= readsHz);
	const below = sorted.findLast((check) => check.readsHz <= readsHz);
	const [near, far] = [below ?? above, above ?? below];
	if (!near || !far) return { value: readsHz, uncertainty: readsHz * uncheckedShare };
	const places = [Math.log(near.readsHz), Math.log(far.readsHz)] as const;
	const span = places[1] - places[0];
	const share = span > 0 ? (here - places[0]) / span : 0;
	const ratio = (1 - share) * (near.trueHz / near.readsHz) + share * (far.trueHz / far.readsHz);
	const away = Math.min(Math.abs(here - places[0]), Math.abs(places[1] - here)) / reach;
	const nearest = Math.abs(here - places[0]) <= Math.abs(places[1] - here) ? near : far;
	const wander = (readsHz * yearShare * nearest.ageS) / yearS;
	const between = readsHz * uncheckedShare * Math.min(away, 1);
	return { value: readsHz * ratio, uncertainty: Math.hypot(nearest.uncertaintyHz, wander, between) };
}
