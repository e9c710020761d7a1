import { meanOf } from '#advice/coach/steadiness.ts';
import type { Estimate } from '#core/numeric/estimate.ts';
import { difference, isTyped, reference, statedDb, trustedDb } from './reference.ts';
import { comparable, type KeptLevel } from './run-state.ts';

/** Readings of a live meter that stand for one end of a turn: half a second. */
const endFrames = 5;

/** First or last level of readings at one level of the generator. */
function end(levels: readonly KeptLevel[], which: 'first' | 'last'): Estimate | null {
	const own = comparable(levels);
	const last = own.at(-1);
	if (!last) return null;
	const count = isTyped(last) ? 1 : endFrames;
	const values = trustedDb(own);
	const taken = which === 'first' ? values.slice(0, count) : values.slice(-count);
	return taken.length === 0 ? null : { value: meanOf(taken), uncertainty: statedDb(own) / Math.sqrt(taken.length) };
}

/** The level before anything was turned: the reference with the hand off, or the first reading. */
export function levelBefore(levels: readonly KeptLevel[]): Estimate | null {
	return reference(levels, 'reference before') ?? end(levels, 'first');
}

/** The level after: the reference with the tool withdrawn, or the last reading. */
export function levelAfter(levels: readonly KeptLevel[]): Estimate | null {
	return reference(levels, 'reference after') ?? end(levels, 'last');
}

/**
 * What one turn gained, decibels, more being better: summed over the stretches between changes of the generator's level,
 * so that a signal made weaker is not taken for a loss. `null` where no stretch has two readings.
 * @param levels all readings of the turn, checks left out
 */
export function turnGain(levels: readonly KeptLevel[], aim: 'maximum' | 'minimum'): Estimate | null {
	const settings = [...new Set(levels.map(({ setting }) => setting))];
	const gains = settings.flatMap((setting) => {
		const stretch = levels.filter((level) => level.setting === setting);
		const before = levelBefore(stretch);
		const after = levelAfter(stretch);
		return stretch.length > 1 && before && after ? [difference(after, before)] : [];
	});
	if (gains.length === 0) return null;
	const sign = aim === 'maximum' ? 1 : -1;
	return {
		value: sign * gains.reduce((sum, { value }) => sum + value, 0),
		uncertainty: Math.hypot(...gains.map(({ uncertainty }) => uncertainty ?? 0)),
	};
}
