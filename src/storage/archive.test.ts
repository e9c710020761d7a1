import { createHash } from 'node:crypto';
import { createWriteStream, mkdtempSync, readFileSync, truncateSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { pipeline } from 'node:stream/promises';
import { expect, test } from 'vitest';
import { ZipFile } from 'yazl';
import { filledStore, newStore, storedCard } from '../../test/filled-store.ts';
import { type Album, sqliteAlbum } from './album.ts';
import { takeArchive } from './archive-reader.ts';
import { archiveStream } from './archive-writer.ts';
import { sqliteShelf } from './shelf.ts';
import { sqliteJournal } from './sqlite-journal.ts';
import { openStore, type Store } from './store.ts';

const folder = mkdtempSync(join(tmpdir(), 'peakwright-archive-'));
let files = 0;
const newPath = (): string => join(folder, `${files++}.zip`);
const house = (store: Store) => ({
	shelf: sqliteShelf(store),
	journal: sqliteJournal(store),
	album: sqliteAlbum(store),
});
const noFault = async (): Promise<null> => null;

const picture = Buffer.from('\xff\xd8\xff a picture, as far as the shelf knows', 'latin1');
const about = { view: 'under', moment: 'before', caption: '\u{1f4fb}', addedAtMs: 5, widthPx: 4, heightPx: 3 } as const;

async function filled(): Promise<Store> {
	const store = await filledStore();
	const { album } = house(store);
	await album.keep('one', { ...about, id: 'p2', places: [{ adjuster: 't1', x: 0.25, y: 0.5 }] }, picture);
	await album.keep('one', { ...about, id: 'p1', places: [] }, Buffer.concat([picture, picture]));
	return store;
}

const reports = async () => [{ run: 'r', pdf: async () => Buffer.from('%PDF a report') }];

async function written(store: Store): Promise<string> {
	const path = newPath();
	await pipeline(archiveStream(house(store), ['one'], reports), createWriteStream(path));
	return path;
}

/** An archive of these files, its list right unless another is given. */
async function madeUp(content: Readonly<Record<string, string | Buffer>>, list?: unknown): Promise<string> {
	const zip = new ZipFile();
	const listed = Object.entries(content).map(([path, text]) => {
		const bytes = Buffer.from(text);
		return { path, bytes: bytes.length, sha256: createHash('sha256').update(bytes).digest('hex') };
	});
	const whole = {
		...content,
		'archive.json': JSON.stringify(list ?? { schema: 'peakwright/archive', version: 1, files: listed }),
	};
	for (const [path, text] of Object.entries(whole)) zip.addBuffer(Buffer.from(text), path);
	zip.end();
	const path = newPath();
	await pipeline(zip.outputStream, createWriteStream(path));
	return path;
}

const setText = (id: string, more = '') =>
	`{"schema": "peakwright/export", "version": 1, "sets": [{"id": "${id}", "cards": [{"changedAtMs": 1, "card": ${JSON.stringify({ ...storedCard, id })}}], "entries": []}${more}]}`;
const soundSet = { 'sets/one/set.json': setText('one'), 'sets/one/photos.json': '[]' };

async function refusedWords(path: string): Promise<string> {
	const store = await newStore();
	const taken = await takeArchive(store, path, noFault);
	expect(await sqliteShelf(store).ids()).toEqual([]);
	await store.close();
	return taken.ok ? 'taken' : taken.words;
}

test('a set with its runs, photographs and reports goes elsewhere and is there to the byte; a second time adds nothing', async () => {
	const here = await filled();
	const path = await written(here);
	const there = await newStore();
	expect(await takeArchive(there, path, noFault)).toEqual({
		ok: true,
		value: { sets: 1, cards: 2, entries: 2, photos: 2 },
	});
	expect(readFileSync(await written(there))).toEqual(readFileSync(path));
	expect(await sqliteAlbum(there).photos('one')).toEqual(await sqliteAlbum(here).photos('one'));
	expect(await takeArchive(there, path, noFault)).toMatchObject({
		ok: true,
		value: { cards: 0, entries: 0, photos: 0 },
	});
	for (const store of [here, there]) await store.close();
});

test('an archive cut short anywhere, or with a byte changed, is refused whole', async () => {
	const here = await filled();
	const path = await written(here);
	const bytes = readFileSync(path);
	for (const share of [0, 0.2, 0.5, 0.9, 0.999]) {
		writeFileSync(path, bytes);
		truncateSync(path, Math.floor(share * bytes.length));
		expect(await refusedWords(path)).toBe(
			'this archive is not taken in: it is cut short, damaged, or no archive, which is a .zip file that Peakwright wrote; a card alone (.json) is taken in where a set is described. Nothing was changed',
		);
	}
	const at = bytes.indexOf('as far as the shelf knows');
	writeFileSync(path, Buffer.concat([bytes.subarray(0, at), Buffer.from('A'), bytes.subarray(at + 1)]));
	expect(await refusedWords(path)).toMatch(/"sets\/one\/photos\/p[12].jpg" is not as it was written/);
	await here.close();
});

test('an archive with paths that climb, files that do not belong, or of a newer version is refused', async () => {
	const climbing = await madeUp({ ...soundSet, 'sets/one/aa/aa/x.json': '{}' });
	const text = readFileSync(climbing, 'latin1').replaceAll('sets/one/aa/aa/x.json', 'sets/../../../../x.js');
	writeFileSync(climbing, Buffer.from(text, 'latin1'));
	expect(await refusedWords(climbing)).toMatch(/a path that leads out of it/);
	for (const [content, list, words] of [
		[{ ...soundSet, 'run.sh': 'rm' }, undefined, /"run.sh", which does not belong/],
		[{ ...soundSet, 'sets/ONE/set.json': '' }, undefined, /"sets\/ONE\/set.json", which does not belong/],
		[
			soundSet,
			{ schema: 'peakwright/archive', version: 2, things: [] },
			/is of version 2, this program reads up to 1; use a newer Peakwright/,
		],
		[soundSet, { schema: 'another', version: 1 }, /its list is not as it should be/],
		[soundSet, { schema: 'peakwright/archive', version: 1, files: [] }, /is not on its list/],
		[{ 'sets/one/set.json': setText('one') }, undefined, /"sets\/one\/photos.json" is missing/],
		[{ ...soundSet, 'sets/one/set.json': setText('two') }, undefined, /is of another set/],
		[{ ...soundSet, 'sets/one/set.json': '{"schema"' }, undefined, /this is not JSON/],
		[{ ...soundSet, 'sets/one/photos.json': '[{"id": "../x"}]' }, undefined, /photographs is not as it should be/],
	] as const)
		expect(await refusedWords(await madeUp(content, list))).toMatch(words);
	const store = await newStore();
	expect(await takeArchive(store, await madeUp(soundSet), noFault)).toMatchObject({ ok: true, value: { cards: 1 } });
	await store.close();
});

test('an archive with a bomb inside is refused before it is unpacked', async () => {
	const bomb = await madeUp({ ...soundSet, 'sets/one/photos/p1.jpg': Buffer.alloc(6_000_000) });
	expect(await refusedWords(bomb)).toMatch(/"sets\/one\/photos\/p1.jpg" would unpack to 6 megabytes/);
	const tight = await madeUp({ 'sets/one/photos.json': '[]', 'sets/one/set.json': Buffer.alloc(30_000_000, ' ') });
	expect(await refusedWords(tight)).toMatch(/"sets\/one\/set.json" would unpack to 30 megabytes/);
	// The directory says a hundred bytes, the file unpacks to many more.
	const lying = readFileSync(await madeUp({ ...soundSet, 'sets/one/reports/r.pdf': Buffer.alloc(900_000) }));
	const entry = lying.lastIndexOf('sets/one/reports/r.pdf') - 46;
	lying.writeUInt32LE(100, entry + 24);
	const path = newPath();
	writeFileSync(path, lying);
	expect(await refusedWords(path)).toMatch(/of another size than it says/);
});

test('an archive that fails at its last file leaves nothing behind; one bad picture refuses the whole', async () => {
	const here = await filled();
	const path = await written(here);
	const there = await newStore();
	const taken = await takeArchive(there, path, async ({ id }) => (id === 'p2' ? 'it is damaged' : null));
	expect(taken).toMatchObject({ ok: false, words: expect.stringContaining('photograph p2: it is damaged') });
	expect(await sqliteShelf(there).ids()).toEqual([]);
	expect(await sqliteAlbum(there).photos('one')).toEqual([]);
	expect(await sqliteJournal(there).runs(null)).toEqual([]);
	for (const store of [here, there]) await store.close();
});

test('an archive that cannot be written to its end says so instead of ending early', async () => {
	const here = await filled();
	const album: Album = { ...sqliteAlbum(here), picture: async () => null };
	const writing = pipeline(archiveStream({ ...house(here), album }, ['one'], reports), createWriteStream(newPath()));
	await expect(writing).rejects.toThrow(/was taken away meanwhile/);
	await here.close();
});

test('a copy made while the store is open, put in the place of the data, is the whole shelf again', async () => {
	const here = await filled();
	const restored = mkdtempSync(join(tmpdir(), 'peakwright-restored-'));
	await here.copyTo(join(restored, 'peakwright.sqlite'));
	const copy = await openStore(restored, 0);
	if (!copy.ok) throw new Error(copy.words);
	expect(readFileSync(await written(copy.value))).toEqual(readFileSync(await written(here)));
	for (const store of [here, copy.value]) await store.close();
});
