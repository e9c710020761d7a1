import type { Estimate } from '#core/numeric/estimate.ts';
import type { KeptLevel } from './kept-level.ts';
import { difference, levelReached, reference } from './reference.ts';
import { comparable, inHand, type RunState } from './run-state.ts';

/** A reference that moved by less is taken for the same (chosen: what leads, line voltage and the hand's nearness do). */
const sameDb = 0.3;
/** After a pause a little more is taken for the same, decibels: volume and leads were touched (chosen). */
export const sameAfterPauseDb = 0.5;
const sigmas = 3;

/** How a reading compares with the one that it repeats. */
export interface Repeated {
	readonly isSame: boolean;
	readonly differenceDb: Estimate;
	readonly words: string;
}

function moved(now: Estimate, before: Estimate, limitDb: number): { isSame: boolean; differenceDb: Estimate } {
	const differenceDb = difference(now, before);
	return {
		isSame: Math.abs(differenceDb.value) <= Math.max(limitDb, sigmas * (differenceDb.uncertainty ?? 0)),
		differenceDb,
	};
}

const byWords = ({ value }: Estimate): string => `${Math.abs(value).toFixed(1)} dB ${value < 0 ? 'lower' : 'higher'}`;

/** The trusted levels of a run at the generator's level as it is, comparable with the latest. */
function now(state: RunState): readonly KeptLevel[] {
	return state.levels.filter(
		({ isStruck, setting, reading }) => !isStruck && setting === state.setting && reading.trust === 'ok',
	);
}

/**
 * Drift between two adjusters: the reference before this one against the reference after the last, nothing having been turned between.
 * `null` where one of them is missing or they cannot be compared.
 */
export function driftBetween(state: RunState, step: string, adjuster: string): Repeated | null {
	const hand = state.turns.length;
	const before = reference(inHand(state, step, adjuster), 'reference before');
	const last = now(state).filter(
		(level) => level.hand === hand - 1 && level.step === step && level.purpose === 'reference after',
	);
	const all = comparable([
		...last,
		...inHand(state, step, adjuster).filter(({ purpose }) => purpose === 'reference before'),
	]);
	const after = levelReached(all.filter((level) => level.hand === hand - 1));
	if (!before || !after) return null;
	const { isSame, differenceDb } = moved(before, after, sameDb);
	return {
		isSame,
		differenceDb,
		words: isSame
			? 'The reference stands where the last adjuster left it.'
			: `The reference reads ${byWords(differenceDb)} than after the last adjuster, and nothing was turned between: it drifts. Let it come to rest before you trust a peak.`,
	};
}

/** The readings before the pause whose last is to be taken once more, oldest first; none where the step that is being worked has none. */
export function readingsLeft(state: RunState): readonly KeptLevel[] {
	return comparable(now(state).filter(({ session, step }) => session < state.session && step === state.step));
}

/** The last reading against the same reading after the pause; `null` until both are there. */
export function reproduction(state: RunState): Repeated | null {
	const again = now(state).filter(({ session, check }) => check === 'as left' && session === state.session);
	const reached = levelReached(again);
	const left = readingsLeft(state);
	const last = left.at(-1);
	const before = levelReached(left) ?? last?.reading.levelDb;
	if (!reached || !last || !before) return null;
	if (comparable([last, ...again.slice(-1)]).length < 2)
		return {
			isSame: false,
			differenceDb: { value: 0, uncertainty: null },
			words: 'Another meter than before the pause: levels begin anew.',
		};
	const { isSame, differenceDb } = moved(reached, before, sameAfterPauseDb);
	return {
		isSame,
		differenceDb,
		words: isSame
			? 'The reading is as it was left.'
			: `It reads ${byWords(differenceDb)} than before the pause: let it warm up longer, and look at generator, level, dial and volume.`,
	};
}
