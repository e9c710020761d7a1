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

/** Shelf and journal of one place. */
export interface House {
	readonly shelf: Shelf;
	readonly journal: SqliteJournal;
}

/** Items as lines of a JSON list, one a line. */
async function* listed(items: AsyncIterable<unknown> | Iterable<unknown>): AsyncGenerator<string> {
	let isFirst = true;
	for await (const item of items) {
		yield `${isFirst ? '' : ','}\n${JSON.stringify(item)}`;
		isFirst = false;
	}
}

async function* entriesOf(journal: SqliteJournal, set: string): AsyncGenerator<RunEntry> {
	for (const { run } of await journal.runs(set)) yield* allEntries(journal, run);
}

/**
 * The sets, with every version of their cards and every entry of their runs, as the text of an export, piece by piece:
 * a journal of any length is never held whole.
 * @param ids sets that are on the shelf; none for all of them
 */
export async function* exportText({ shelf, journal }: House, ids: readonly string[]): AsyncGenerator<string> {
	const wanted = ids.length > 0 ? ids : await shelf.ids();
	yield '{"schema": "peakwright/export", "version": 1, "sets": [';
	for (const [place, id] of wanted.entries()) {
		yield `${place === 0 ? '' : ','}\n{"id": ${JSON.stringify(id)}, "cards": [`;
		const versions = await shelf.versions(id);
		yield* listed(versions.map(({ changedAtMs, card }) => ({ changedAtMs, card })));
		yield '\n], "entries": [';
		yield* listed(entriesOf(journal, id));
		yield '\n]}';
	}
	yield '\n]}\n';
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
				await shelf.add({ id, changedAtMs, card });
				count.cards++;
			}
			count.entries += await sqliteJournal(inside).keep(entries);
		}
		return count;
	});
}
