/** Archives taken in: as bytes, and by their description, so that changes reach behind the sums. */
import { mkdtempSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { buffer } from 'node:stream/consumers';
import sharp from 'sharp';
import { pictureFault } from '../../src/server/photo-intake.ts';
import { sqliteAlbum } from '../../src/storage/album.ts';
import { takeArchive } from '../../src/storage/archive-reader.ts';
import { archiveStream } from '../../src/storage/archive-writer.ts';
import { sqliteShelf } from '../../src/storage/shelf.ts';
import { sqliteJournal } from '../../src/storage/sqlite-journal.ts';
import type { Store } from '../../src/storage/store.ts';
import { newStore, storedCard } from '../../test/filled-store.ts';
import { madeArchive } from './made-archive.ts';
import { type FuzzedParser, holds, refusal, textOf } from './parser.ts';

const pictures = await Promise.all(
	['#a3211b', '#efe6d0'].map((background) =>
		sharp({ create: { width: 4, height: 3, channels: 3, background } })
			.jpeg()
			.toBuffer(),
	),
);

const photo = {
	view: 'under',
	moment: 'before',
	caption: 'dial cord',
	addedAtMs: 5,
	widthPx: 4,
	heightPx: 3,
	places: [{ adjuster: 'osc-trimmer', x: 0.25, y: 0.5 }],
};
const entries = [
	{
		id: 'e1',
		run: 'r1',
		order: 0,
		atMs: 3,
		what: { kind: 'started', card: storedCard, options: {}, meter: 'typed', generator: 'typed' },
	},
	{ id: 'e2', run: 'r1', order: 1, atMs: 4, what: { kind: 'note', text: 'hums' } },
];

/** Description of an archive with one set, two photographs and a report; what it states of sizes is true. */
const described = (id: string, packed: boolean) => ({
	files: [
		{
			path: `sets/${id}/set.json`,
			packed,
			json: {
				schema: 'peakwright/export',
				version: 1,
				sets: [{ id, cards: [{ changedAtMs: 1, card: { ...storedCard, id } }], entries }],
			},
		},
		{
			path: `sets/${id}/photos.json`,
			packed,
			json: [
				{ ...photo, id: 'p1' },
				{ ...photo, id: 'p2', moment: 'after' },
			],
		},
		{ path: `sets/${id}/photos/p1.jpg`, picture: 0 },
		{
			path: `sets/${id}/photos/p2.jpg`,
			picture: 1,
			lies: { pathBytes: `sets/${id}/photos/p2.jpg`.length, flags: 0x0800 },
		},
		{
			path: `sets/${id}/reports/r1.pdf`,
			text: '%PDF a report',
			times: 1,
			lies: { bytes: 13, packedBytes: 13, method: 0 },
		},
	],
	list: null,
	end: { files: 6, filesHere: 6, commentBytes: 0 },
});

const folder = mkdtempSync(join(tmpdir(), 'peakwright-fuzz-archive-'));
const path = join(folder, 'archive.zip');
const check = (about: { widthPx: number; heightPx: number }, bytes: Uint8Array): Promise<string | null> =>
	pictureFault({ ...about, bytes });

const houseOf = (store: Store) => ({
	store,
	shelf: sqliteShelf(store),
	journal: sqliteJournal(store),
	album: sqliteAlbum(store),
});

const tables = ['entry', 'standing_card', 'card', 'picture', 'photo'] as const;

/** How much a store holds. */
async function counts({ database }: Store): Promise<string> {
	const rows: unknown[] = [];
	for (const table of tables)
		rows.push(
			await database
				.selectFrom(table)
				.select(({ fn }) => fn.countAll().as('count'))
				.executeTakeFirstOrThrow(),
		);
	return JSON.stringify(rows);
}

async function emptied({ database }: Store): Promise<void> {
	for (const table of tables) await database.deleteFrom(table).execute();
}

let stores: Promise<readonly [here: Store, there: Store]> | null = null;

async function judged(bytes: Uint8Array): Promise<string> {
	writeFileSync(path, bytes);
	stores ??= Promise.all([newStore(), newStore()]);
	const [store, there] = await stores;
	const before = await counts(store);
	const taken = await takeArchive(store, path, check);
	if (!taken.ok) {
		holds((await counts(store)) === before, 'an archive that was refused and left something behind');
		return refusal(taken.words.slice(taken.words.indexOf(':') + 2));
	}
	// What was taken in goes elsewhere and comes back the same.
	const again = await takeArchive(store, path, check);
	holds(
		again.ok && again.value.cards + again.value.entries + again.value.photos === 0,
		'an archive that adds something when it is taken in again',
	);
	const house = houseOf(store);
	const ids = await house.shelf.ids();
	for (const id of ids) holds((await house.shelf.set(id)) !== null, 'a set that is listed and not there');
	const written = await buffer(archiveStream(house, ids, async () => []));
	writeFileSync(path, written);
	const arrived = await takeArchive(there, path, check);
	holds(arrived.ok, `what was taken in cannot go elsewhere: ${arrived.ok ? '' : arrived.words}`);
	const rewritten = await buffer(archiveStream(houseOf(there), ids, async () => []));
	holds(rewritten.equals(written), 'an archive that changes when it goes elsewhere');
	for (const one of [store, there]) await emptied(one);
	return JSON.stringify(taken.value);
}

const whole = madeArchive(described('one', true), pictures);

const zips: FuzzedParser = {
	name: 'zips',
	form: 'bytes',
	begins: [whole, madeArchive(described('two', false), pictures)],
	words: [
		'PK\u0003\u0004',
		'PK\u0001\u0002',
		'PK\u0005\u0006',
		'PK\u0006\u0006',
		'PK\u0006\u0007',
		'\u00ff\u00ff\u00ff\u00ff',
		'sets/one/',
		'../../',
		'photos.json',
		'archive.json',
		'.pdf',
	],
	judge: judged,
};

const archives: FuzzedParser = {
	name: 'archives',
	form: 'json',
	begins: [
		described('one', true),
		described('two', false),
		{ ...described('one', true), list: { schema: 'peakwright/archive', version: 1, files: [] } },
	].map((one) => JSON.stringify(one)),
	words: [
		'"lies":{"bytes":5}',
		'"path":"sets/one/reports/x.pdf"',
		'"times":1e6',
		'"../"',
		'"packed":true',
		'"json":[]',
	],
	judge(input) {
		let asked: unknown;
		try {
			asked = JSON.parse(textOf(input));
		} catch {
			return 'not a description';
		}
		return judged(madeArchive(asked, pictures));
	},
};

export const archiveParsers: readonly FuzzedParser[] = [zips, archives];
