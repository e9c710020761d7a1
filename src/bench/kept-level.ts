import type { LevelReading } from '#record/reading.ts';
import type { Happening } from '#record/run.ts';
import { levelsInHand } from './journal.ts';

/** What is kept of a level. */
export type LevelHappening = Extract<Happening, { kind: 'level' }>;
/** What a level was read for. */
export type LevelPurpose = LevelHappening['purpose'];
/** The check that a level belongs to. */
export type LevelCheck = NonNullable<LevelHappening['check']>;

/** One kept level, with the entry that keeps it. */
export interface KeptLevel {
	readonly entry: string;
	readonly step: string;
	readonly adjuster: string | null;
	readonly purpose: LevelPurpose;
	readonly check: LevelCheck | null;
	readonly reading: LevelReading;
	readonly isStruck: boolean;
	/** Turns counted before this was read: readings of one adjuster with the same number belong to one turn. */
	readonly hand: number;
	/** How often the generator's level had been changed when this was read: only levels of one number can be compared. */
	readonly setting: number;
	/** Pauses before it was read. */
	readonly session: number;
}

/** Levels in hand at most. */
export const allInHand = levelsInHand.turning + levelsInHand.turned + levelsInHand.resting;

/** The latest of levels after so many counted turns: of those read in the present turn, of those in earlier ones, and of the rest. */
export function latest(levels: readonly KeptLevel[], hand: number): readonly KeptLevel[] {
	const kindOf = (level: KeptLevel): keyof typeof levelsInHand =>
		level.purpose !== 'live' ? 'resting' : level.hand === hand ? 'turning' : 'turned';
	const left = { turning: 0, turned: 0, resting: 0 };
	for (const level of levels) left[kindOf(level)]++;
	if (Object.entries(left).every(([kind, count]) => count <= levelsInHand[kind as keyof typeof left])) return levels;
	return levels.filter((level) => {
		const kind = kindOf(level);
		return left[kind]-- <= levelsInHand[kind];
	});
}
