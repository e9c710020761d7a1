import type { Parsed } from './parsed.ts';
import { shownWords } from './shown-words.ts';

/** What is taken from a Touchstone file: magnitude of one parameter in decibels against frequency, ascending. */
export interface TouchstoneTrace {
	readonly parameter: 'S11' | 'S21';
	readonly portCount: 1 | 2;
	readonly frequenciesHz: readonly number[];
	readonly levelsDb: readonly number[];
	/** The line of the file, counted from 1, where each row begins. */
	readonly lines: readonly number[];
}

const mostText = 8_000_000;
const unitHz: Readonly<Record<string, number>> = { HZ: 1, KHZ: 1e3, MHZ: 1e6, GHZ: 1e9 };
const wrong = (words: string): Parsed<never> => ({ ok: false, words });

interface Options {
	readonly toHz: number;
	readonly format: 'DB' | 'MA' | 'RI';
}

/** The option line: `# [Hz|kHz|MHz|GHz] [S] [DB|MA|RI] [R n]`, in any order; what is left out is GHz, S, MA, 50 ohms [touchstone-2]. */
function optionsOf(line: string, number: number): Parsed<Options> {
	const words = line.slice(1).trim().toUpperCase().split(/\s+/).filter(Boolean);
	let toHz = 1e9;
	let format: Options['format'] = 'MA';
	for (let place = 0; place < words.length; place++) {
		const word = words[place] as string;
		if (word in unitHz) toHz = unitHz[word] as number;
		else if (word === 'DB' || word === 'MA' || word === 'RI') format = word;
		else if (word === 'R') place++;
		else if (word !== 'S')
			return wrong(
				`line ${number}: "${shownWords(word, 20)}" in the option line: only S parameters in DB, MA or RI are read`,
			);
	}
	return { ok: true, value: { toHz, format } };
}

function magnitudeDb(one: number, other: number, format: Options['format']): number {
	if (format === 'DB') return one;
	return 20 * Math.log10(format === 'MA' ? one : Math.hypot(one, other));
}

interface Numbers {
	readonly values: number[];
	readonly lines: number[];
}

interface Body {
	readonly options: Options;
	readonly ports: number | null;
	readonly order: '12_21' | '21_12';
	readonly numbers: Numbers;
}

function keyword(line: string): readonly [string, string] | null {
	const [, name, rest] = /^\[([^\]]+)\]\s*(.*)$/.exec(line) ?? [];
	return name === undefined ? null : [name.trim().toLowerCase(), (rest ?? '').trim()];
}

function bodyOf(text: string): Parsed<Body> {
	let options: Options | null = null;
	let ports: number | null = null;
	let order: Body['order'] = '21_12';
	const numbers: Numbers = { values: [], lines: [] };
	let ended = false;
	for (const [index, raw] of text.split(/\r\n|\r|\n/).entries()) {
		const line = (raw.split('!')[0] ?? '').trim();
		const number = index + 1;
		if (line === '' || ended) continue;
		if (line.startsWith('#')) {
			if (options) continue;
			const read = optionsOf(line, number);
			if (!read.ok) return read;
			options = read.value;
			continue;
		}
		const key = keyword(line);
		if (key) {
			const [name, rest] = key;
			if (name === 'number of ports') ports = Number(rest);
			else if (name === 'two-port data order' || name === 'two-port order') {
				if (rest !== '12_21' && rest !== '21_12') return wrong(`line ${number}: two-port data order is 12_21 or 21_12`);
				order = rest;
			} else if (name === 'matrix format' && rest.toLowerCase() !== 'full')
				return wrong(`line ${number}: matrix format ${shownWords(rest, 20)}: save the file with the full matrix`);
			else if (name === 'noise data' || name === 'end') ended = true;
			continue;
		}
		if (!options)
			return wrong(
				`line ${number}: numbers before the option line: a Touchstone file says # Hz S RI R 50 or the like first`,
			);
		for (const word of line.split(/\s+/)) {
			const value = Number(word);
			if (word === '' || !Number.isFinite(value))
				return wrong(`line ${number}: cannot read a number from "${shownWords(word)}"`);
			numbers.values.push(value);
			numbers.lines.push(number);
		}
	}
	if (!options) return wrong('no option line: a Touchstone file has a line such as # Hz S RI R 50');
	return { ok: true, value: { options, ports, order, numbers } };
}

/** Ports by the count of numbers on the first data line, where the file does not say: 3 for one port, 9 for two. */
function portsOf({ ports, numbers }: Body): 1 | 2 | null {
	if (ports === 1 || ports === 2) return ports;
	if (ports !== null) return null;
	const onFirst = numbers.lines.filter((line) => line === numbers.lines[0]).length;
	return onFirst === 3 ? 1 : onFirst === 9 ? 2 : null;
}

/**
 * The magnitude of S21 (two-port) or S11 in the text of a Touchstone file, version 1.1 or 2.0, one or two ports, DB, MA or RI [touchstone-2].
 * Noise data after the network data are left out. A bad number refuses the whole file, with its line.
 * @param parameter S21 is taken from a two-port and S11 from a one-port file unless said
 */
export function parseTouchstone(text: string, parameter?: 'S11' | 'S21'): Parsed<TouchstoneTrace> {
	if (text.length > mostText) return wrong(`the file has ${text.length} characters: give at most ${mostText}`);
	const body = bodyOf(text);
	if (!body.ok) return body;
	const { options, order, numbers } = body.value;
	const portCount = portsOf(body.value);
	if (portCount === null) return wrong('only one-port and two-port files are read: save S11 or S21 as .s1p or .s2p');
	const taken = parameter ?? (portCount === 2 ? 'S21' : 'S11');
	if (taken === 'S21' && portCount === 1) return wrong('a one-port file has no S21: choose S11');
	const width = portCount === 1 ? 3 : 9;
	// Within a row: f, S11, then S21 S12 (usual) or S12 S21, then S22; two numbers each.
	const column = taken === 'S11' ? 1 : order === '21_12' ? 3 : 5;
	const frequenciesHz: number[] = [];
	const levelsDb: number[] = [];
	const lines: number[] = [];
	for (let at = 0; at < numbers.values.length; at += width) {
		const line = numbers.lines[at] as number;
		const frequencyHz = (numbers.values[at] as number) * options.toHz;
		// Noise data of version 1.1 begin where the frequency steps back.
		if (portCount === 2 && frequenciesHz.length > 0 && frequencyHz < (frequenciesHz.at(-1) as number)) break;
		if (at + width > numbers.values.length) return wrong(`line ${line}: the last row is cut off; copy the file again`);
		const levelDb = magnitudeDb(
			numbers.values[at + column] as number,
			numbers.values[at + column + 1] as number,
			options.format,
		);
		if (!(frequencyHz > 0 && Number.isFinite(frequencyHz)))
			return wrong(`line ${line}: the frequency is ${frequencyHz}; it has to be above 0 and a number`);
		if (!Number.isFinite(levelDb)) return wrong(`line ${line}: ${taken} has no level in decibels`);
		if (frequencyHz <= (frequenciesHz.at(-1) ?? 0))
			return wrong(`line ${line}: the frequency does not rise; a Touchstone file ascends`);
		frequenciesHz.push(frequencyHz);
		levelsDb.push(levelDb);
		lines.push(line);
	}
	if (frequenciesHz.length === 0) return wrong('no numbers after the option line: save the file again with its data');
	return { ok: true, value: { parameter: taken, portCount, frequenciesHz, levelsDb, lines } };
}
