import { meanOf } from '#advice/coach/steadiness.ts';
import type { SheetStep } from '#advice/sheet-step.ts';
import type { Estimate } from '#core/numeric/estimate.ts';
import type { Happening } from '#record/run.ts';
import type { KeptLevel } from './kept-level.ts';
import type { InputScale } from './level-scale.ts';
import { difference, isTyped, reference, statedDb, trustedDb } from './reference.ts';
import { comparable, inHand, levelsOf, type RunState } from './run-state.ts';

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
function levelBefore(levels: readonly KeptLevel[]): Estimate | null {
	return reference(levels, 'reference before') ?? end(levels, 'first');
}

/** The level after: the reference with the tool withdrawn, or the last reading. */
function levelAfter(levels: readonly KeptLevel[]): Estimate | null {
	return reference(levels, 'reference after') ?? end(levels, 'last');
}

/**
 * What one turn gained, decibels, more being better: summed over the stretches between changes of the generator's level,
 * so that a signal made weaker is not taken for a loss. `null` where no stretch has two readings.
 * @param levels all readings of the turn, checks left out
 */
function turnGain(levels: readonly KeptLevel[], aim: 'maximum' | 'minimum'): Estimate | null {
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

/**
 * What the turn of an adjuster came to: levels before and after, the best of it, decibels, and what it gained.
 * @param scale turns readings into levels at the input, where the AVC law of the set is known
 */
export function turnCameTo(
	state: RunState,
	step: SheetStep,
	adjuster: string,
	scale: InputScale | null,
): Pick<Extract<Happening, { kind: 'adjusted' }>, 'beforeDb' | 'afterDb' | 'bestDb' | 'gainDb' | 'gainAt'> {
	const aim = step.aim === 'minimum' ? 'minimum' : 'maximum';
	const sign = aim === 'maximum' ? 1 : -1;
	const levels = levelsOf(state, step.id, adjuster);
	const bestDb = levels.reduce<Estimate | null>((best, { reading: { levelDb } }) => {
		if (levelDb === null) return best;
		return best === null || sign * levelDb.value > sign * best.value ? levelDb : best;
	}, null);
	const own = inHand(state, step.id, adjuster).filter(({ purpose }) => purpose !== 'check');
	const atInput = scale?.levels(own) ?? null;
	const gainDb = turnGain(atInput ?? own, aim);
	return {
		beforeDb: levelBefore(levels),
		afterDb: levelAfter(levels),
		bestDb,
		...(gainDb === null ? {} : { gainDb }),
		...(gainDb !== null && atInput ? { gainAt: 'input' as const } : {}),
	};
}
