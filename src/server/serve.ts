import { randomUUID } from 'node:crypto';
import { readdirSync, readFileSync } from 'node:fs';
import { createServer } from 'node:net';
import { join } from 'node:path';
import { setTimeout as wait } from 'node:timers/promises';
import { serve as listen, type ServerType } from '@hono/node-server';
import type { Parsed } from '#record/parsed.ts';
import { parseSetCard } from '#record/set-card-file.ts';
import { sqliteAlbum } from '#storage/album.ts';
import { lockData } from '#storage/data-lock.ts';
import { faultCode, faultWords } from '#storage/fault-words.ts';
import { instrumentDrawer } from '#storage/instrument-drawer.ts';
import { type Shelf, sqliteShelf } from '#storage/shelf.ts';
import { sqliteJournal } from '#storage/sqlite-journal.ts';
import { openStore } from '#storage/store.ts';
import { application } from './application.ts';
import { HostBench, usualAwayMs } from './host-bench.ts';
import { packageRoot } from './package-root.ts';

/** A server that runs. */
export interface RunningServer {
	readonly address: string;
	stop(): Promise<void>;
}

/** How long requests under way may take when the server stops. */
const longestEndingMs = 2000;
const loopback = '127.0.0.1';

function isFree(port: number): Promise<boolean> {
	return new Promise((resolve) => {
		const probe = createServer();
		// One that may not be had is refused in words when it is served at.
		probe.once('error', (error) => resolve(faultCode(error) !== 'EADDRINUSE'));
		probe.listen(port, loopback, () => probe.close(() => resolve(true)));
	});
}

/** The port asked for, or the next free one of the twenty after it. 0 lets the system choose. */
async function freePort(port: number): Promise<number | null> {
	for (let next = port; next <= port + 20 && next < 65_536; next++) if (next === 0 || (await isFree(next))) return next;
	return null;
}

/** Takes no more requests and lets those under way end; one that does not is cut off. */
async function closed(server: ServerType): Promise<void> {
	const connections = 'closeAllConnections' in server ? server : null;
	const cut = setTimeout(() => connections?.closeAllConnections(), longestEndingMs);
	// A connection that a browser keeps open falls idle when its last answer is given.
	const idle = setInterval(() => connections?.closeIdleConnections(), 20);
	await new Promise<void>((done) => {
		server.close(() => done());
	});
	clearInterval(idle);
	clearTimeout(cut);
}

async function stockShelf(shelf: Shelf, nowMs: number): Promise<void> {
	if ((await shelf.ids()).length > 0) return;
	const folder = join(packageRoot(), 'examples');
	for (const name of readdirSync(folder)
		.filter((file) => file.endsWith('.json'))
		.sort()) {
		const card = parseSetCard(readFileSync(join(folder, name), 'utf8'));
		if (card.ok) await shelf.keep(card.value, nowMs);
	}
}

/**
 * Serves page, shelf and journal on the loopback address; or says why it cannot.
 * @param notice told in passing, such as that another port was taken
 */
export async function serve(settings: {
	readonly folder: string;
	readonly port: number;
	readonly nowMs: () => number;
	readonly notice: (words: string) => void;
}): Promise<Parsed<RunningServer>> {
	const { folder, port, nowMs, notice } = settings;
	const lock = await lockData(folder);
	if (!lock.ok) return lock;
	const store = await openStore(folder, nowMs());
	if (!store.ok) {
		lock.value();
		return store;
	}
	const leave = async (words: string): Promise<Parsed<never>> => {
		await store.value.close();
		lock.value();
		return { ok: false, words };
	};
	const shelf = sqliteShelf(store.value);
	try {
		await stockShelf(shelf, nowMs());
	} catch (error) {
		return leave(`cannot keep anything in ${folder}: ${faultWords(error)}; or give another folder with --data`);
	}
	const free = await freePort(port);
	if (free === null) return leave(`ports ${port} to ${port + 20} are all in use: give another with --port`);
	if (free !== port) notice(`Port ${port} is in use; taking ${free}.`);
	const journal = sqliteJournal(store.value);
	const mark = instrumentDrawer(store.value);
	const waitMs = (ms: number): Promise<void> => wait(ms);
	const host = new HostBench({ journal, nowMs, newId: randomUUID, waitMs, awayMs: usualAwayMs, mark });
	const left = await mark.leftOn();
	if (left) {
		notice(
			`The program was ended while the generator at ${left.place} may have been on: it is told to be off. Look at it.`,
		);
		host.recover(left);
	}
	const { fetch } = application(
		{ shelf, journal, album: sqliteAlbum(store.value), store: store.value, nowMs, host },
		join(packageRoot(), 'dist', 'page'),
	);
	return new Promise((resolve) => {
		const refused = ({ message }: Error): void => {
			void leave(`cannot serve at port ${free}: ${message}; give another with --port`).then(resolve);
		};
		const server = listen({ fetch, port: free, hostname: loopback }, (info) => {
			server.off('error', refused);
			resolve({
				ok: true,
				value: {
					address: `http://${loopback}:${info.port}`,
					stop: async () => {
						if ((await host.stop()) !== 'off') notice('The generator may still be on: switch it off by hand.');
						await closed(server);
						await store.value.close();
						lock.value();
					},
				},
			});
		});
		server.once('error', refused);
	});
}
