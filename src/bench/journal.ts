import type { RunEntry } from '#record/run.ts';

/** Where a run's entries go. An entry is kept once the promise of `append` is fulfilled; entries are never changed. */
export interface Journal {
	/** Keeps the entries, in order. An entry whose id is already kept is passed over. */
	append(entries: readonly RunEntry[]): Promise<void>;
	/** What tells where a run stands, in order: every entry but the levels that are older than those in hand. */
	standing(run: string): Promise<readonly RunEntry[]>;
}
