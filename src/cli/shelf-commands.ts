import { createWriteStream, existsSync, readFileSync, rmSync } from 'node:fs';
import { pipeline } from 'node:stream/promises';
import { parseExchange } from '#record/exchange.ts';
import { usualDataFolder } from '#server/data-folder.ts';
import { exportText, imported } from '#storage/exchange.ts';
import { faultCode, faultWords } from '#storage/fault-words.ts';
import { sqliteShelf } from '#storage/shelf.ts';
import { sqliteJournal } from '#storage/sqlite-journal.ts';
import { openStore, type Store } from '#storage/store.ts';
import { type Command, type CommandInput, InputFault } from './command.ts';

const dataOption = { data: { type: 'string' } } as const;

/** Opens the data, lets the work be done and closes it again, whatever comes. */
export async function withStore<Result>(
	{ values }: CommandInput,
	work: (store: Store) => Promise<Result>,
): Promise<Result> {
	const folder = typeof values.data === 'string' ? values.data : usualDataFolder(process.env);
	const store = await openStore(folder, Date.now());
	if (!store.ok) throw new InputFault(store.words);
	try {
		return await work(store.value);
	} finally {
		await store.value.close();
	}
}

const house = (store: Store) => ({ shelf: sqliteShelf(store), journal: sqliteJournal(store) });
const day = (atMs: number): string => new Date(atMs).toISOString().slice(0, 16).replace('T', ' ');

function newFile(path: string | undefined, usage: string): string {
	if (path === undefined) throw new InputFault(`give the file to write: npx peakwright ${usage}`);
	if (existsSync(path)) throw new InputFault(`${path} is there already and stays as it is: give another name`);
	return path;
}

/** Writes a new file piece by piece; one that could not be written to its end is taken away again. */
async function writeWhole(path: string, pieces: AsyncIterable<string>): Promise<void> {
	const file = createWriteStream(path, { flags: 'wx' });
	try {
		await pipeline(pieces, file);
	} catch (error) {
		// A file that was there before is somebody else's.
		if (faultCode(error) !== 'EEXIST') rmSync(path, { force: true });
		throw new InputFault(`${path} could not be written: ${faultWords(error)}; nothing is left of it`);
	}
}

export const setsCommand: Command = {
	name: 'sets',
	summary: 'lists the sets on the shelf',
	usage: '[--data FOLDER] [--json]',
	examples: ['npx peakwright sets'],
	options: { ...dataOption, json: { type: 'boolean' } },
	run: (input, output) =>
		withStore(input, async (store) => {
			const sets = await sqliteShelf(store).sets();
			if (input.values.json === true) output.line(JSON.stringify({ sets }));
			else if (sets.length === 0) output.notice('The shelf is empty: npx peakwright start puts the demo sets on it.');
			else
				for (const { id, card } of sets)
					output.line(`${id.padEnd(32)} ${[card.maker, card.model, card.year].filter(Boolean).join(' ')}`);
		}),
};

export const runsCommand: Command = {
	name: 'runs',
	summary: 'lists the runs of a set, or of all',
	usage: '[SET] [--data FOLDER] [--json]',
	examples: ['npx peakwright runs', 'npx peakwright runs thistlemoor-tm-517'],
	options: { ...dataOption, json: { type: 'boolean' } },
	run: (input, output) =>
		withStore(input, async (store) => {
			const runs = await sqliteJournal(store).runs(input.positionals[0] ?? null);
			if (input.values.json === true) output.line(JSON.stringify({ runs }));
			else if (runs.length === 0) output.notice('There are no runs yet: begin one on the page Bench.');
			else
				for (const { run, set, startedAtMs, entries } of runs)
					output.line(`${run}  ${set ?? '-'}  ${day(startedAtMs)}  ${entries} entries`);
		}),
};

export const exportCommand: Command = {
	name: 'export',
	summary: 'writes sets with their runs into one readable file',
	usage: 'FILE.json [SET ...] [--data FOLDER]',
	examples: ['npx peakwright export everything.json', 'npx peakwright export one.json thistlemoor-tm-517'],
	options: dataOption,
	run: (input, output) =>
		withStore(input, async (store) => {
			const [path, ...ids] = input.positionals;
			const target = newFile(path, 'export FILE.json [SET ...]');
			const { shelf } = house(store);
			for (const id of ids)
				if ((await shelf.set(id)) === null)
					throw new InputFault(`${id} is not on the shelf: npx peakwright sets lists what is`);
			await writeWhole(target, exportText(house(store), ids));
			output.notice(`${ids.length || (await shelf.sets()).length} sets written to ${target}.`);
		}),
};

export const importCommand: Command = {
	name: 'import',
	summary: 'takes sets with their runs from an exported file',
	usage: 'FILE.json [--data FOLDER]',
	examples: ['npx peakwright import everything.json'],
	options: dataOption,
	run: (input, output) => {
		const [path] = input.positionals;
		if (path === undefined || !existsSync(path))
			throw new InputFault('give the file to take in: npx peakwright import FILE.json');
		const parsed = parseExchange(readFileSync(path, 'utf8'));
		if (!parsed.ok) throw new InputFault(`${path}: ${parsed.words}`);
		return withStore(input, async (store) => {
			const { cards, entries } = await imported(store, parsed.value);
			output.notice(`New here: ${cards} versions of cards, ${entries} entries.`);
		});
	},
};

export const backupCommand: Command = {
	name: 'backup',
	summary: 'copies everything into one file, also while the program runs',
	usage: 'FILE.sqlite [--data FOLDER]',
	examples: ['npx peakwright backup peakwright-copy.sqlite'],
	options: dataOption,
	run: (input, output) =>
		withStore(input, async (store) => {
			const target = newFile(input.positionals[0], 'backup FILE.sqlite');
			await store.copyTo(target);
			output.notice(`Copied to ${target}. To use it: put it into the data folder as peakwright.sqlite.`);
		}),
};
