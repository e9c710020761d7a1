import { mkdtempSync, readFileSync, statSync, truncateSync, writeFileSync } from 'node:fs';
import { request } from 'node:http';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import Database from 'better-sqlite3';
import { sql } from 'kysely';
import { afterEach, expect, test } from 'vitest';
import type { RunEntry } from '#record/run.ts';
import { sqliteAlbum } from '#storage/album.ts';
import { sqliteShelf } from '#storage/shelf.ts';
import { sqliteJournal } from '#storage/sqlite-journal.ts';
import { openStore, type Store } from '#storage/store.ts';
import { application } from './application.ts';
import { HostBench } from './host-bench.ts';
import { serve } from './serve.ts';

const closing: (() => Promise<unknown> | unknown)[] = [];
afterEach(async () => {
	for (const close of closing.splice(0).reverse()) await close();
});

const newFolder = () => mkdtempSync(join(tmpdir(), 'peakwright-fault-'));
const note = (order: number, text = 'x'): RunEntry => ({
	id: `e${order}`,
	run: 'r',
	order,
	atMs: order,
	what: { kind: 'note', text },
});

async function opened(folder: string): Promise<{ store: Store; send: (entry: RunEntry) => Promise<Response> }> {
	const store = await openStore(folder, 0);
	if (!store.ok) throw new Error(store.words);
	closing.push(() => store.value.close());
	const journal = sqliteJournal(store.value);
	const mark = { markOn: async () => {}, seenOff: async () => {} };
	const host = new HostBench({ journal, nowMs: () => 0, newId: () => 'x', waitMs: async () => {}, awayMs: 1000, mark });
	const app = application(
		{
			shelf: sqliteShelf(store.value),
			journal,
			album: sqliteAlbum(store.value),
			store: store.value,
			nowMs: () => 0,
			host,
		},
		'dist/page',
	);
	return {
		store: store.value,
		send: async (entry) =>
			app.request('/api/runs/r/entries', {
				method: 'POST',
				headers: { host: '127.0.0.1:1', 'Content-Type': 'application/json' },
				body: JSON.stringify({ entries: [entry] }),
			}),
	};
}

const faultOf = async (answer: Response): Promise<string> => ((await answer.json()) as { fault: string }).fault;

test('a full disk is said in plain words; what was kept stays, and the rest goes in when there is room', async () => {
	const { store, send } = await opened(newFolder());
	expect((await send(note(0))).status).toBe(200);
	// SQLite itself finds no room: the same fault as that of a full disk.
	await sql`pragma max_page_count = 1`.execute(store.database);
	const refused = await send(note(1, 'long '.repeat(3000)));
	expect(refused.status).toBe(503);
	expect(await faultOf(refused)).toBe(
		'it could not be kept: the disk is full: nothing that was kept is lost; make room on it',
	);
	const journal = sqliteJournal(store);
	expect((await journal.entries('r', 0, 9)).map(({ id }) => id)).toEqual(['e0']);
	await sql`pragma max_page_count = 1000000`.execute(store.database);
	expect((await send(note(1, 'long '.repeat(3000)))).status).toBe(200);
	expect((await journal.entries('r', 0, 9)).map(({ id }) => id)).toEqual(['e0', 'e1']);
});

test('a journal held by another program is said so, and is used again when it is free', async () => {
	const folder = newFolder();
	const { store, send } = await opened(folder);
	const other = new Database(join(folder, 'peakwright.sqlite'));
	closing.push(() => other.close());
	other.exec('begin immediate');
	const refused = await send(note(0));
	expect(refused.status).toBe(503);
	expect(await faultOf(refused)).toContain('another program holds the journal: nothing is lost; close that program');
	other.exec('rollback');
	expect((await send(note(0))).status).toBe(200);
	expect(await sqliteJournal(store).entries('r', 0, 9)).toHaveLength(1);
});

test('a journal held at the start keeps the program from starting, and says why', async () => {
	const folder = newFolder();
	const first = await openStore(folder, 0);
	if (!first.ok) throw new Error(first.words);
	await first.value.close();
	const other = new Database(join(folder, 'peakwright.sqlite'));
	closing.push(() => other.close());
	other.pragma('locking_mode = EXCLUSIVE');
	other.exec('begin exclusive');
	const second = await serve({ folder, port: 0, nowMs: () => 0, notice: () => {} });
	expect(second).toMatchObject({ ok: false, words: expect.stringContaining('another program holds the journal') });
});

/** A closed journal with a few hundred entries; the path of its file. */
async function filledFile(folder: string): Promise<string> {
	const store = await openStore(folder, 0);
	if (!store.ok) throw new Error(store.words);
	await sqliteJournal(store.value).append(
		Array.from({ length: 300 }, (_, order) => note(order, `note ${order} `.repeat(20))),
	);
	await store.value.close();
	return join(folder, 'peakwright.sqlite');
}

test('a journal damaged in the middle or cut short is refused and left as it is', async () => {
	const damages: readonly ((path: string) => void)[] = [
		(path) => {
			const bytes = readFileSync(path);
			bytes.fill(0x5a, 4096 * 3, 4096 * 9);
			writeFileSync(path, bytes);
		},
		(path) => truncateSync(path, Math.floor(statSync(path).size / 8192) * 4096),
	];
	for (const damage of damages) {
		const folder = newFolder();
		const path = await filledFile(folder);
		damage(path);
		const before = readFileSync(path);
		const server = await serve({ folder, port: 0, nowMs: () => 0, notice: () => {} });
		expect(server).toMatchObject({ ok: false, words: expect.stringMatching(/the journal is damaged: .*put a backup/) });
		expect(readFileSync(path).equals(before)).toBe(true);
	}
});

test('a folder that is a file cannot be worked in, and the sentence says what to do', async () => {
	const file = join(newFolder(), 'file');
	writeFileSync(file, '');
	const server = await serve({ folder: join(file, 'data'), port: 0, nowMs: () => 0, notice: () => {} });
	expect(server).toMatchObject({ ok: false, words: expect.stringContaining('give another folder with --data') });
});

test('a stop lets the request under way end, closes the journal and frees the data', async () => {
	const folder = newFolder();
	const server = await serve({ folder, port: 0, nowMs: () => 0, notice: () => {} });
	if (!server.ok) throw new Error(server.words);
	const body = JSON.stringify({ entries: [note(0)] });
	const half = request(`${server.value.address}/api/runs/r/entries`, {
		method: 'POST',
		headers: { 'Content-Type': 'application/json', 'Content-Length': body.length },
	});
	const status = new Promise<number>((resolve, reject) => {
		half.on('response', (answer) => resolve(answer.statusCode ?? 0)).on('error', reject);
	});
	half.write(body.slice(0, 20));
	await new Promise((resolve) => setTimeout(resolve, 100));
	const stopped = server.value.stop();
	await new Promise((resolve) => setTimeout(resolve, 100));
	half.end(body.slice(20));
	expect(await status).toBe(200);
	await stopped;
	expect(await fetch(`${server.value.address}/api/sets`).catch(() => null)).toBe(null);
	// Nothing is left beside the journal itself: it was closed and its log written back.
	const { store } = await opened(folder);
	expect(await sqliteJournal(store).entries('r', 0, 9)).toHaveLength(1);
});

test('a request that never ends does not hold up the stop', async () => {
	const server = await serve({ folder: newFolder(), port: 0, nowMs: () => 0, notice: () => {} });
	if (!server.ok) throw new Error(server.words);
	const half = request(`${server.value.address}/api/sets`, { method: 'POST', headers: { 'Content-Length': 50 } });
	half.on('error', () => {});
	half.write('{');
	await new Promise((resolve) => setTimeout(resolve, 100));
	await server.value.stop();
	half.destroy();
});
