import type { RunEntry } from '#record/run.ts';

/** Where a run's entries go. An entry is kept once the promise of `append` is fulfilled; entries are never changed. */
export interface Journal {
	/** Keeps the entries, in order. An entry whose id is already kept is passed over. */
	append(entries: readonly RunEntry[]): Promise<void>;
	/** All entries of a run, in order. */
	entries(run: string): Promise<readonly RunEntry[]>;
}
