import { existsSync } from 'node:fs';
import { countedWords } from '#record/counted-words.ts';
import { runStanding } from '#record/run-standing.ts';
import { usualDataFolder } from '#server/data-folder.ts';
import { sqliteShelf } from '#storage/shelf.ts';
import { sqliteJournal } from '#storage/sqlite-journal.ts';
import { openStore, type Store } from '#storage/store.ts';
import { type Command, type CommandInput, InputFault } from './command.ts';
import { takesNoMore } from './input.ts';

/** The folder that a command works on. */
export const dataOption = { data: { type: 'string' } } as const;

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

const day = (atMs: number): string => new Date(atMs).toISOString().slice(0, 16).replace('T', ' ');

/** A file that is to be written and is not there yet. */
export function newFile(path: string | undefined, usage: string): string {
	if (path === undefined) throw new InputFault(`give the file to write: npx peakwright ${usage}`);
	if (existsSync(path)) throw new InputFault(`${path} is there already and stays as it is: give another name`);
	return path;
}

export const setsCommand: Command = {
	name: 'sets',
	summary: 'lists the sets on the shelf, or those that all words are found on: maker, model, tube, IF, year',
	usage: '[WORD ...] [--data FOLDER] [--json]',
	examples: ['npx peakwright sets', 'npx peakwright sets thistlemoor 455kc'],
	options: { ...dataOption, json: { type: 'boolean' } },
	run: (input, output) =>
		withStore(input, async (store) => {
			const question = input.positionals.join(' ');
			const { sets } = await sqliteShelf(store).find(question, 0, Number.MAX_SAFE_INTEGER);
			if (input.values.json === true) output.line(JSON.stringify({ sets }));
			else if (sets.length === 0 && question !== '') output.notice('No set on the shelf has all these words.');
			else if (sets.length === 0) output.notice('The shelf is empty: npx peakwright start puts the demo sets on it.');
			else
				for (const { id, card } of sets)
					output.line(`${id.padEnd(32)} ${[card.maker, card.model, card.year].filter(Boolean).join(' ')}`);
		}),
};

export const runsCommand: Command = {
	name: 'runs',
	summary: 'lists the runs of a set, or of all: when each was begun, and whether it was finished or left',
	usage: '[SET] [--data FOLDER] [--json]',
	examples: ['npx peakwright runs', 'npx peakwright runs thistlemoor-tm-517'],
	options: { ...dataOption, json: { type: 'boolean' } },
	run: (input, output) =>
		withStore(input, async (store) => {
			const [set = null, ...more] = input.positionals;
			takesNoMore(more, 'one set, or none for the runs of all');
			const runs = await sqliteJournal(store).runs(set);
			if (input.values.json === true) output.line(JSON.stringify({ runs }));
			else if (runs.length === 0) output.notice('There are no runs yet: begin one on the page Bench.');
			else
				for (const { run, set, startedAtMs, entries, ...standing } of runs)
					output.line(
						`${run}  ${set ?? '-'}  ${day(startedAtMs)}  ${countedWords(entries, 'entry', 'entries')}  ${runStanding(standing)}`,
					);
		}),
};

export const backupCommand: Command = {
	name: 'backup',
	summary: 'copies everything into one file, also while the program runs',
	usage: 'FILE.sqlite [--data FOLDER]',
	examples: ['npx peakwright backup peakwright-copy.sqlite'],
	options: dataOption,
	run: (input, output) =>
		withStore(input, async (store) => {
			const [path, ...more] = input.positionals;
			takesNoMore(more, 'one file to write');
			const target = newFile(path, 'backup FILE.sqlite');
			await store.copyTo(target);
			output.notice(`Copied to ${target}. To use it: put it into the data folder as peakwright.sqlite.`);
		}),
};
