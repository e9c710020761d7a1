import { createWriteStream, readFileSync, rmSync, statSync } from 'node:fs';
import { pipeline } from 'node:stream/promises';
import { parseExchange } from '#record/exchange.ts';
import { archivedReports } from '#server/archive-route.ts';
import { pictureFault } from '#server/photo-intake.ts';
import { sqliteAlbum } from '#storage/album.ts';
import { takeArchive } from '#storage/archive-reader.ts';
import { type ArchiveHouse, archiveStream } from '#storage/archive-writer.ts';
import { exportText, imported } from '#storage/exchange.ts';
import { faultCode, faultWords } from '#storage/fault-words.ts';
import { sqliteShelf } from '#storage/shelf.ts';
import { sqliteJournal } from '#storage/sqlite-journal.ts';
import type { Store } from '#storage/store.ts';
import { type Command, InputFault } from './command.ts';
import { takesNoMore } from './input.ts';
import { dataOption, newFile, withStore } from './shelf-commands.ts';

const house = (store: Store): ArchiveHouse => ({
	shelf: sqliteShelf(store),
	journal: sqliteJournal(store),
	album: sqliteAlbum(store),
});
const isArchive = (path: string): boolean => /\.zip$/i.test(path);

/** Writes a new file piece by piece; one that could not be written to its end is taken away again. */
async function writeWhole(path: string, pieces: AsyncIterable<string | Uint8Array>): Promise<void> {
	const file = createWriteStream(path, { flags: 'wx' });
	try {
		await pipeline(pieces, file);
	} catch (error) {
		// A file that was there before is somebody else's.
		if (faultCode(error) !== 'EEXIST') rmSync(path, { force: true });
		throw new InputFault(`${path} could not be written: ${faultWords(error)}; nothing is left of it`);
	}
}

export const exportCommand: Command = {
	name: 'export',
	summary: 'writes sets into one file: all that belongs to them (.zip), or cards and runs to be read (.json)',
	usage: 'FILE.zip|FILE.json [SET ...] [--data FOLDER]',
	examples: ['npx peakwright export one.zip thistlemoor-tm-517', 'npx peakwright export everything.json'],
	options: dataOption,
	run: (input, output) =>
		withStore(input, async (store) => {
			const [path, ...ids] = input.positionals;
			const target = newFile(path, 'export FILE.zip [SET ...]');
			const from = house(store);
			for (const id of ids)
				if ((await from.shelf.set(id)) === null)
					throw new InputFault(`${id} is not on the shelf: npx peakwright sets lists what is`);
			const wanted = ids.length > 0 ? ids : await from.shelf.ids();
			await writeWhole(
				target,
				isArchive(target) ? archiveStream(from, wanted, archivedReports(from, {})) : exportText(from, wanted),
			);
			output.notice(`${wanted.length} sets written to ${target}.`);
		}),
};

export const importCommand: Command = {
	name: 'import',
	summary: 'takes sets from a file that was exported, with all that is in it',
	usage: 'FILE.zip|FILE.json [--data FOLDER]',
	examples: ['npx peakwright import one.zip'],
	options: dataOption,
	run: (input, output) => {
		const [path, ...more] = input.positionals;
		takesNoMore(more, 'one file to take in');
		if (path === undefined || !statSync(path, { throwIfNoEntry: false })?.isFile())
			throw new InputFault('give the file to take in: npx peakwright import FILE.zip');
		return withStore(input, async (store) => {
			if (isArchive(path)) {
				const taken = await takeArchive(store, path, (photo, bytes) => pictureFault({ ...photo, bytes }));
				if (!taken.ok) throw new InputFault(`${path}: ${taken.words}`);
				const { cards, entries, photos } = taken.value;
				output.notice(`New here: ${cards} versions of cards, ${entries} entries, ${photos} photographs.`);
				return;
			}
			const parsed = parseExchange(readFileSync(path, 'utf8'));
			if (!parsed.ok) throw new InputFault(`${path}: ${parsed.words}`);
			const { cards, entries } = await imported(store, parsed.value);
			output.notice(`New here: ${cards} versions of cards, ${entries} entries.`);
		});
	},
};
