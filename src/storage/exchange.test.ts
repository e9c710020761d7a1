import { mkdtempSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { parseExchange } from '#record/exchange.ts';
import { filledStore, newStore } from '../../test/filled-store.ts';
import { exportText, imported } from './exchange.ts';
import { sqliteShelf } from './shelf.ts';
import { sqliteJournal } from './sqlite-journal.ts';
import type { Store } from './store.ts';

async function exported(store: Store, ids: readonly string[]): Promise<string> {
	let text = '';
	for await (const piece of exportText({ shelf: sqliteShelf(store), journal: sqliteJournal(store) }, ids))
		text += piece;
	return text;
}

test('what is exported imports elsewhere without loss, and a second time adds nothing', async () => {
	const here = await filledStore();
	const text = await exported(here, []);
	const parsed = parseExchange(text);
	if (!parsed.ok) throw new Error(parsed.words);
	const there = await newStore();
	expect(await imported(there, parsed.value)).toEqual({ cards: 2, entries: 2 });
	expect(await exported(there, [])).toBe(text);
	expect(await imported(there, parsed.value)).toEqual({ cards: 0, entries: 0 });
	for (const store of [here, there]) await store.close();
});

test('an import that fails half way leaves nothing behind', async () => {
	const here = await filledStore();
	const whole = parseExchange(await exported(here, ['one']));
	if (!whole.ok) throw new Error(whole.words);
	const there = await newStore();
	const sets = whole.value.sets.map((set) => ({
		...set,
		// An entry that the database refuses.
		entries: [...set.entries, { id: 'z', run: 'r', order: Number.NaN, atMs: 9, what: { kind: 'resumed' } as const }],
	}));
	await expect(imported(there, { ...whole.value, sets })).rejects.toThrow();
	expect(await sqliteShelf(there).ids()).toEqual([]);
	expect(await sqliteJournal(there).entries('r', 0, 9)).toEqual([]);
	for (const store of [here, there]) await store.close();
});

test('a run that went elsewhere and was worked on at both places keeps what was done at both', async () => {
	const here = await filledStore();
	const sent = parseExchange(await exported(here, ['one']));
	if (!sent.ok) throw new Error(sent.words);
	const there = await newStore();
	await imported(there, sent.value);
	const note = (id: string) => ({ id, run: 'r', order: 2, atMs: 9, what: { kind: 'note', text: id } }) as const;
	await sqliteJournal(here).append([note('here')]);
	await sqliteJournal(there).append([note('there')]);
	const back = parseExchange(await exported(there, ['one']));
	if (!back.ok) throw new Error(back.words);
	expect(await imported(here, back.value)).toEqual({ cards: 0, entries: 1 });
	expect((await sqliteJournal(here).entries('r', 0, 9)).map(({ id, order }) => `${order} ${id}`)).toEqual([
		'0 a',
		'1 b',
		'2 here',
		'3 there',
	]);
	for (const store of [here, there]) await store.close();
});

test('a copy made while the store is open holds everything', async () => {
	const here = await filledStore();
	const folder = mkdtempSync(join(tmpdir(), 'peakwright-copy-'));
	await here.copyTo(join(folder, 'peakwright.sqlite'));
	const copy = await newStore(folder);
	expect(await exported(copy, [])).toBe(await exported(here, []));
	for (const store of [here, copy]) await store.close();
});

test('a file cut short or of another kind is refused', () => {
	for (const text of [
		'{"schema": "peakwright/export"',
		'{}',
		'[]',
		'{"schema":"peakwright/export","version":2,"sets":[]}',
	]) {
		const parsed = parseExchange(text);
		expect(parsed.ok).toBe(false);
		if (!parsed.ok) expect(parsed.words).toMatch(/^this is not /);
	}
});
