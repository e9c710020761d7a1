import type { Exchange } from '#record/exchange.ts';
import type { RunEntry } from '#record/run.ts';
import { type Shelf, sqliteShelf } from './shelf.ts';
import { type SqliteJournal, sqliteJournal } from './sqlite-journal.ts';
import type { Store } from './store.ts';
import { inTransaction } from './transaction.ts';

const pageLength = 1000;

/** Every entry of a run, in order. */
async function* allEntries(journal: SqliteJournal, run: string): AsyncGenerator<RunEntry> {
	for (let from = 0; ; ) {
		const page = await journal.entries(run, from, pageLength);
		yield* page;
		const last = page.at(-1);
		if (!last || page.length < pageLength) return;
		from = last.order + 1;
	}
}

interface House {
	readonly shelf: Shelf;
	readonly journal: SqliteJournal;
}

/** The sets named, or all of them, with every version of their cards and every entry of their runs; `null` when one is not on the shelf. */
export async function exported({ shelf, journal }: House, ids: readonly string[]): Promise<Exchange | null> {
	const wanted = ids.length > 0 ? ids : (await shelf.sets()).map(({ id }) => id);
	const sets: Exchange['sets'] = [];
	for (const id of wanted) {
		const versions = await shelf.versions(id);
		if (versions.length === 0) return null;
		const entries: RunEntry[] = [];
		for (const { run } of await journal.runs(id))
			for await (const entry of allEntries(journal, run)) entries.push(entry);
		sets.push({ id, cards: versions.map(({ changedAtMs, card }) => ({ changedAtMs, card })), entries });
	}
	return { schema: 'peakwright/export', version: 1, sets };
}

/** Takes an export in, in one transaction: versions and entries that are here already are passed over. Returns how many were new. */
export async function imported(store: Store, { sets }: Exchange): Promise<{ cards: number; entries: number }> {
	return inTransaction(store.database, async (transaction) => {
		const inside: Store = { ...store, database: transaction };
		const shelf = sqliteShelf(inside);
		const count = { cards: 0, entries: 0 };
		for (const { id, cards, entries } of sets) {
			const here = new Set(
				(await shelf.versions(id)).map(({ changedAtMs, card }) => `${changedAtMs} ${JSON.stringify(card)}`),
			);
			for (const { changedAtMs, card } of cards) {
				const text = JSON.stringify(card);
				if (here.has(`${changedAtMs} ${text}`)) continue;
				await transaction.insertInto('card').values({ set_id: id, changed_at_ms: changedAtMs, card: text }).execute();
				count.cards++;
			}
			count.entries += await sqliteJournal(inside).keep(entries);
		}
		return count;
	});
}
