import { type CoachAdvice, coachAdvice } from '#advice/coach/turn.ts';
import type { LevelReading } from '#record/reading.ts';
import { handDisturbance } from './adjuster-flow.ts';
import type { KeptLevel } from './kept-level.ts';
import type { InputScale } from './level-scale.ts';
import { isTyped, statedDb, trustedDb } from './reference.ts';
import type { RunState } from './run-state.ts';

/** An adjuster in hand as it is shown: all of it in decibels at the input, or all at the output. */
export interface TurnView {
	readonly at: 'input' | 'output';
	readonly coach: CoachAdvice;
	/** Standard uncertainty of one reading, decibels. */
	readonly knownDb: number;
	/** How far the latest reading is off the best, worse being positive; `null` where they cannot be compared. */
	readonly offDb: number | null;
}

/** Readings of a live meter that are averaged: half a second. */
const framesAveraged = 5;

/**
 * How the adjuster in hand stands.
 * @param marked the readings that are judged, oldest first
 * @param now the latest reading, kept or not
 * @param scale turns readings back into the input; where it does not reach all that is judged the output is shown
 */
export function turnView(
	state: RunState,
	{ step, adjuster, aim }: { readonly step: string; readonly adjuster: string; readonly aim: 'maximum' | 'minimum' },
	marked: readonly KeptLevel[],
	now: LevelReading | null,
	scale: InputScale | null,
): TurnView {
	const turned = marked.length === 0 ? null : (scale?.levels(marked) ?? null);
	const at = turned === null ? 'output' : 'input';
	const judged = turned ?? marked;
	const last = judged.at(-1);
	const isLive = last === undefined || !isTyped(last);
	const knownDb = statedDb(judged);
	const coach = coachAdvice({
		levelsDb: trustedDb(judged),
		aim,
		framesAveraged: isLive ? framesAveraged : 1,
		uncertaintyDb: knownDb,
		disturbance: isLive ? handDisturbance(state, step, adjuster, at) : null,
	});
	const own = now === null || turned === null ? now : (scale?.reading(now) ?? null);
	const isComparable = coach.bestDb !== null && own?.levelDb && own.reference === last?.reading.reference;
	const offDb = isComparable ? (coach.bestDb as number) - (own?.levelDb?.value ?? 0) : null;
	return { at, coach, knownDb, offDb: offDb === null ? null : aim === 'maximum' ? offDb : -offDb };
}
