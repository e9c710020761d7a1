import { partForms } from '#advice/parts/part-form.ts';
import type { Command } from './command.ts';
import { optionWords } from './option-words.ts';

/** One option of a command, as a person reads of it. */
export interface CommandOption {
	readonly name: string;
	/** What is written after it, `455kc`; `null` when nothing is. */
	readonly value: string | null;
	readonly words: string;
	/** The only words that may be written after it; empty when there are no such. */
	readonly choices: readonly string[];
	readonly isFile: boolean;
}

const partFields = Object.values(partForms).flatMap(({ needed, more }) => [...needed, ...more]);

/** What usage or an example writes after an option: a word, words in quotes, or several with a bar between. */
function writtenValue({ usage, examples }: Pick<Command, 'usage' | 'examples'>, name: string): string | null {
	for (const text of [usage, ...examples]) {
		const found = new RegExp(`--${name}[ =]((?:"[^"]*"|'[^']*'|[^\\s\\]"'])+)`).exec(text)?.[1];
		if (found !== undefined && !found.startsWith('--')) return found;
	}
	return null;
}

/** Words that end a list of choices as something else: a quantity or a name of one's own. */
const isChoice = (word: string): boolean => !/^\d|^N$/.test(word);

/** Words with bars between them as choices; none when there is but one. */
function choicesIn(value: string): readonly string[] {
	const words = value.split('|').map((word) => word.replaceAll('"', ''));
	return words.length < 2 ? [] : words.filter(isChoice);
}

/** A label as words inside a line: `Range of its trimmer` begins small, `IF` and `Q now` do not. */
const sentenceInside = (label: string | undefined): string | undefined =>
	label?.replace(/^[A-Z](?=[a-z])/, (letter) => letter.toLowerCase());

/** The options of a command in the order of its table; each has its words, or the program has a mistake. */
export function optionsOf(command: Omit<Command, 'run'>): readonly CommandOption[] {
	return Object.entries(command.options).map(([name, { type }]) => {
		const field = command.name === 'part' ? partFields.find((known) => known.name === name) : undefined;
		const words = optionWords[`${command.name} ${name}`] ?? sentenceInside(field?.words) ?? optionWords[name];
		if (words === undefined) throw new Error(`missing words of --${name} of ${command.name}, expected in optionWords`);
		if (type === 'boolean') return { name, value: null, words, choices: [], isFile: false };
		const value = writtenValue(command, name) ?? field?.choices?.join('|') ?? field?.example ?? 'VALUE';
		const choices = command.choices?.[name] ?? choicesIn(value);
		return { name, value, words, choices, isFile: /FILE|FOLDER|\.json|\.csv/i.test(value) };
	});
}

/** The words that may stand first after the command's name, such as `beat` of `generator`. */
export function firstWords({ usage }: Command): readonly string[] {
	const first = usage.split(' ')[0] ?? '';
	return /^[a-z]+(\|[a-z]+)+$/.test(first) ? first.split('|') : [];
}
