import { createWriteStream } from 'node:fs';
import { join } from 'node:path';
import { pipeline } from 'node:stream/promises';
import { archivedReports } from '../../src/server/archive-route.ts';
import { pictureFault } from '../../src/server/photo-intake.ts';
import { takePhoto } from '../../src/server/photo-route.ts';
import { sqliteAlbum } from '../../src/storage/album.ts';
import { takeArchive } from '../../src/storage/archive-reader.ts';
import { archiveStream } from '../../src/storage/archive-writer.ts';
import { sqliteShelf } from '../../src/storage/shelf.ts';
import { sqliteJournal } from '../../src/storage/sqlite-journal.ts';
import { openStore, type Store } from '../../src/storage/store.ts';
import { scratchFolder, startProgram } from '../../test/journeys/open-page.ts';
import { photoFile } from '../../test/photo-file.ts';
import { provedRun } from '../../test/proved-run.ts';
import { longShelf, questions } from '../keeping/long-shelf.ts';
import { atMost, type Figure } from './figure.ts';

const photos = 20;
const [setCount, runCount] = [5000, 100_000] as const;

async function newStore(): Promise<Store> {
	const store = await openStore(scratchFolder(), 0);
	if (!store.ok) throw new Error(store.words);
	return store.value;
}

const house = (store: Store) => ({
	shelf: sqliteShelf(store),
	journal: sqliteJournal(store),
	album: sqliteAlbum(store),
});

export const figures: readonly Figure[] = [
	{
		name: `archive of a set with ${photos} photographs, written and taken in elsewhere`,
		target: 'at most 5 s',
		by: 'clock',
		how: 'demo set with a run of all tests and its report; photographs of 12 million points, made smaller before the clock starts; worst of 3',
		async measure() {
			const here = await newStore();
			const from = house(here);
			const entries = await provedRun();
			const [started] = entries;
			if (started?.what.kind !== 'started') throw new Error('no card');
			const { id = '' } = await from.shelf.keep(started.what.card, 0);
			await from.journal.append(entries);
			for (let seed = 0; seed < photos; seed++) {
				const taken = await takePhoto({ ...from, nowMs: () => seed }, id, await photoFile(4000, 3000, seed + 1));
				if (!taken.ok) throw new Error(taken.words);
			}
			const times: { outS: number; inS: number; bytes: number }[] = [];
			for (let round = 0; round < 3; round++) {
				const path = join(scratchFolder(), 'set.zip');
				const begunMs = performance.now();
				const file = createWriteStream(path);
				await pipeline(archiveStream(from, [id], archivedReports(from, {})), file);
				const writtenMs = performance.now();
				const there = await newStore();
				const openedMs = performance.now();
				const taken = await takeArchive(there, path, (photo, bytes) => pictureFault({ ...photo, bytes }));
				if (!taken.ok || taken.value.photos !== photos)
					throw new Error(taken.ok ? 'photographs are missing' : taken.words);
				times.push({
					outS: (writtenMs - begunMs) / 1e3,
					inS: (performance.now() - openedMs) / 1e3,
					bytes: file.bytesWritten,
				});
				await there.close();
			}
			await here.close();
			const worst = times.reduce((one, other) => (one.outS + one.inS > other.outS + other.inS ? one : other));
			return {
				reached: `${worst.outS.toFixed(2)} s out, ${worst.inS.toFixed(2)} s in; ${(worst.bytes / 1e6).toFixed(1)} MB`,
				used: atMost(worst.outS + worst.inS, 5),
			};
		},
	},
	{
		name: `lists of a shelf of ${setCount.toLocaleString('en')} sets and ${runCount.toLocaleString('en')} runs`,
		target: 'at most 100 ms',
		by: 'clock',
		how: 'from the question to the whole answer of the running program; the first page, a late page, sets found by maker, model, tube, IF, year and several of them, runs of a set and the newest of all; worst of 5 rounds of each, the first round included',
		async measure() {
			const folder = scratchFolder();
			await longShelf(folder, setCount, runCount);
			const program = await startProgram(folder);
			try {
				let worst = { ms: 0, path: '' };
				for (let round = 0; round < 5; round++)
					for (const path of questions) {
						const begunMs = performance.now();
						const answer = await fetch(`${program.address}/api${path}`);
						await answer.text();
						const ms = performance.now() - begunMs;
						if (!answer.ok) throw new Error(`${path}: ${answer.status}`);
						if (ms > worst.ms) worst = { ms, path };
					}
				return { reached: `${worst.ms.toFixed(0)} ms at worst (${worst.path})`, used: atMost(worst.ms, 100) };
			} finally {
				await program.end('SIGTERM');
			}
		},
	},
];
