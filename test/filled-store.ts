import { mkdtempSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { SetCard } from '../src/record/set-card.ts';
import { sqliteShelf } from '../src/storage/shelf.ts';
import { sqliteJournal } from '../src/storage/sqlite-journal.ts';
import { openStore, type Store } from '../src/storage/store.ts';

/** An empty store, in a folder of its own when none is given. */
export async function newStore(folder = mkdtempSync(join(tmpdir(), 'peakwright-store-'))): Promise<Store> {
	const store = await openStore(folder, 0);
	if (!store.ok) throw new Error(store.words);
	return store.value;
}

/** An invented card with letters that are easily spoilt on the way. */
export const storedCard: SetCard = {
	schema: 'peakwright/set-card',
	version: 1,
	id: 'one',
	supply: 'battery',
	notes: '\u03a9 \u202e "',
};

/** A store that holds two versions of the card and a run of two entries. */
export async function filledStore(): Promise<Store> {
	const store = await newStore();
	await sqliteShelf(store).keep(storedCard, 1);
	await sqliteShelf(store).keep({ ...storedCard, year: 1936 }, 2);
	const started = { kind: 'started', card: storedCard, options: {}, meter: 'typed', generator: 'typed' } as const;
	await sqliteJournal(store).append([
		{ id: 'a', run: 'r', order: 0, atMs: 3, what: started },
		{ id: 'b', run: 'r', order: 1, atMs: 4, what: { kind: 'note', text: 'hums' } },
	]);
	return store;
}
