import { settledLevelDb, unstatedDb } from '#advice/coach/steadiness.ts';
import type { Estimate } from '#core/numeric/estimate.ts';
import type { KeptLevel, LevelPurpose } from './kept-level.ts';
import { comparable } from './run-state.ts';

/** A meter that a person reads: each of its readings stands for itself. */
export function isTyped({ reading }: KeptLevel): boolean {
	return reading.instrument === 'typed';
}

/** The trusted levels, decibels, oldest first. */
export function trustedDb(levels: readonly KeptLevel[]): number[] {
	return levels.flatMap(({ reading }) =>
		reading.trust === 'ok' && reading.levelDb !== null ? [reading.levelDb.value] : [],
	);
}

/** Standard uncertainty that the meter states for its latest reading, decibels. */
export function statedDb(levels: readonly KeptLevel[]): number {
	return levels.at(-1)?.reading.levelDb?.uncertainty ?? unstatedDb;
}

/** The level that readings have come to: the last one typed, or what a live meter has settled on; `null` while it has not. */
export function levelReached(levels: readonly KeptLevel[]): Estimate | null {
	const own = comparable(levels);
	const last = own.at(-1);
	if (!last) return null;
	if (isTyped(last)) return last.reading.levelDb;
	return settledLevelDb(trustedDb(own), statedDb(own));
}

/** The level that readings of one purpose have come to; `null` where there are none or they have not settled. */
export function reference(levels: readonly KeptLevel[], purpose: LevelPurpose): Estimate | null {
	return levelReached(levels.filter((level) => level.purpose === purpose));
}

/** The difference of two levels with its uncertainty, decibels. */
export function difference(later: Estimate, earlier: Estimate): Estimate {
	return {
		value: later.value - earlier.value,
		uncertainty: Math.hypot(later.uncertainty ?? unstatedDb, earlier.uncertainty ?? unstatedDb),
	};
}
