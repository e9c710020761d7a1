import type { LevelReading } from '#record/reading.ts';
import type { Happening } from '#record/run.ts';

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

/**
 * How many of a run's latest levels the bench looks at: of those read while an adjuster is being turned, two minutes of a meter that is read ten times a
 * second; of those read before its last counted turn, ten seconds, so that a run left there can be taken up by its last reading; of references and checks,
 * what belongs to the last few adjusters (all chosen). Earlier ones stay in the journal; drift has made them worth little as a mark to go by.
 */
export const levelsInHand = { turning: 1200, turned: 100, resting: 400 } as const;

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
