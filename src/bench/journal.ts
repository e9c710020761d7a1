import type { RunEntry } from '#record/run.ts';

/**
 * How many of a run's latest levels the bench looks at: of those read while an adjuster is being turned, two minutes of a meter that is read ten times a
 * second; of those read before its last counted turn, ten seconds, so that a run left there can be taken up by its last reading; of references and checks,
 * what belongs to the last few adjusters (all chosen). Earlier ones stay in the journal; drift has made them worth little as a mark to go by.
 */
export const levelsInHand = { turning: 1200, turned: 100, resting: 400 } as const;

/** Where a run's entries go. An entry is kept once the promise of `append` is fulfilled; entries are never changed. */
export interface Journal {
	/** Keeps the entries, in order. An entry whose id is already kept is passed over. */
	append(entries: readonly RunEntry[]): Promise<void>;
	/** What tells where a run stands, in order: every entry but the levels that are older than those in hand. */
	standing(run: string): Promise<readonly RunEntry[]>;
}
