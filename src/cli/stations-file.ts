import { parseQuantity } from '#record/quantity.ts';
import { shownWords } from '#record/shown-words.ts';
import { InputFault } from './command.ts';
import { readInput, readQuantity } from './input.ts';

const mostStations = 300;

/** The unit in a header cell: `kHz`, `frequency kc`, `station (Mc)`. */
function unitOf(cell: string): string | null {
	const unit = /([A-Za-z/]+)[\])]?\s*$/.exec(cell.trim())?.[1] ?? '';
	return unit !== '' && !/^m/.test(unit) && parseQuantity('frequency', `1 ${unit}`).ok ? unit : null;
}

/**
 * Stations in a file: one a line, in a column whose header ends in a unit of frequency, such as `name,kHz`; or without a header, each with its unit.
 * Other columns are names and are passed over.
 */
export function stationsIn(path: string): readonly number[] {
	return stationsOf(readInput(path, 'a list of stations, one a line, such as: name,kHz').toString('utf8'), path);
}

/** Stations in a text; `path` is what refusals call it. */
export function stationsOf(text: string, path: string): readonly number[] {
	const lines = text
		.replace(/^\ufeff/, '')
		.split(/\r\n|\r|\n/)
		.map((text, place) => ({ text: text.trim(), line: place + 1 }))
		.filter(({ text }) => text !== '' && !/^[#!]/.test(text));
	const [head] = lines;
	if (!head) throw new InputFault(`${path}: no stations: give one a line under a header such as name,kHz`);
	if (lines.length > mostStations)
		throw new InputFault(`${path}: ${lines.length} lines: give at most ${mostStations} stations`);
	const cellsOf = (text: string): string[] => text.split(/[,;\t]/).map((cell) => cell.trim().replace(/^"(.*)"$/, '$1'));
	const units = cellsOf(head.text).map(unitOf);
	const isHeader = !/\d/.test(head.text);
	const column = units.findIndex((unit) => unit !== null);
	if (isHeader && column < 0) {
		throw new InputFault(
			`${path}: line ${head.line}: no unit of frequency in "${shownWords(head.text)}": give a header such as name,kHz`,
		);
	}
	const stations = lines.slice(isHeader ? 1 : 0).map(({ text, line }) => {
		const cells = cellsOf(text);
		const words = isHeader
			? `${cells[column] ?? ''} ${units[column]}`
			: (cells.find((cell) => parseQuantity('frequency', cell).ok) ?? cells[0] ?? '');
		return readQuantity('frequency', `${path}: line ${line}`, words);
	});
	if (stations.length === 0) throw new InputFault(`${path}: no stations under the header: give one a line`);
	return [...new Set(stations)].sort((a, b) => a - b);
}
