import type { Parsed } from './parsed.ts';
import { parseQuantity, type QuantityKind } from './quantity.ts';
import { shownWords } from './shown-words.ts';

/** One column: its header as written, the name before the unit in small letters, the unit, and what kind of quantity it holds. */
export interface TableColumn {
	readonly words: string;
	readonly name: string;
	readonly unit: string;
	readonly kind: QuantityKind;
}

/** One row: the line of the file it stands in, counted from 1, and its values in SI units (decibels for levels), column by column. */
export interface TableRow {
	readonly line: number;
	readonly values: readonly number[];
	/** The number in each cell as it was written, with a point before its decimals. */
	readonly digits: readonly string[];
}

/** A table of quantities: a header that names a unit for each column, and rows of plain numbers. */
export interface Table {
	readonly columns: readonly TableColumn[];
	readonly rows: readonly TableRow[];
}

/** Longest text that is read, in characters, and the most rows: far above any sweep, chosen so that nonsense is refused at once. */
const mostText = 4_000_000;
const mostRows = 20_000;

const kindsOfColumns: readonly QuantityKind[] = ['frequency', 'level', 'voltage', 'power', 'place', 'time'];
const separators = [';', '\t', ','] as const;

const wrong = (words: string): Parsed<never> => ({ ok: false, words });
const shown = (words: string): string => `"${shownWords(words)}"`;

const unquoted = (cell: string): string =>
	cell
		.trim()
		.replace(/^"(.*)"$/, '$1')
		.trim();

/** The kind of quantity that a unit belongs to, `null` when the trade does not know it. */
function kindOf(unit: string): QuantityKind | null {
	return kindsOfColumns.find((kind) => parseQuantity(kind, `1 ${unit}`).ok) ?? null;
}

/** A header cell read as a unit alone, or as a name and a unit: `kHz`, `frequency kHz`, `level_dB`, `output [V]`, `heard (kc)`. */
function columnOf(words: string): TableColumn | null {
	const whole = kindOf(words);
	if (whole) return { words, name: '', unit: words, kind: whole };
	const [, name = '', unit = ''] = /^(.*?)[\s_([/,:-]+([^\s_([\])/,:]+(?:\/s)?)[\])]?$/.exec(words) ?? [];
	const kind = unit === '' ? null : kindOf(unit);
	return kind ? { words, name: name.trim().toLowerCase(), unit, kind } : null;
}

function headerOf(line: string): { separator: string; columns: TableColumn[] } | null {
	for (const separator of separators) {
		const cells = line.split(separator).map(unquoted);
		const columns = cells.map(columnOf);
		if (cells.length > 1 && columns.every((column) => column !== null)) return { separator, columns };
	}
	return null;
}

/** The number in a cell with a point before its decimals, `null` when it is none; a comma is a decimal comma where it does not part cells. */
function digitsOf(cell: string, commaIsDecimal: boolean): string | null {
	const plain = cell.replace(/[\u2212\u2013]/g, '-').replace(/^\+/, '');
	const pointed = commaIsDecimal && !plain.includes('.') ? plain.replace(',', '.') : plain;
	return /^-?(\d+\.?\d*|\.\d+)([eE][+-]?\d+)?$/.test(pointed) ? pointed : null;
}

/** SI value of a number in a column's unit; the unit was read with the header. */
function siOf(digits: string, { kind, unit }: TableColumn): number | null {
	const value = Number(digits);
	if (!Number.isFinite(value)) return null;
	// A table of time begins at nought, which is no length of time that a person would type.
	if (kind === 'time' && value === 0) return 0;
	const parsed = parseQuantity(kind, `${value} ${unit}`);
	return parsed.ok ? parsed.value : null;
}

function rowOf(text: string, line: number, header: NonNullable<ReturnType<typeof headerOf>>): Parsed<TableRow> {
	const { separator, columns } = header;
	const cells = text.split(separator).map(unquoted);
	if (cells.length !== columns.length) {
		return wrong(
			`line ${line} has ${cells.length} ${cells.length === 1 ? 'cell' : 'cells'}, the header ${columns.length}: give one number for each of ${shownWords(columns.map(({ words }) => words).join(', '), 100)}`,
		);
	}
	const digits: string[] = [];
	const values: number[] = [];
	for (const [place, column] of columns.entries()) {
		const cell = cells[place] as string;
		const where = `line ${line}, column ${place + 1} (${shownWords(column.words)})`;
		if (cell === '') return wrong(`${where} is empty: give a number, or take the line out`);
		const number = digitsOf(cell, separator !== ',');
		if (number === null)
			return wrong(
				`${where}: cannot read a number from ${shown(cell)}: give a plain number in ${shownWords(column.unit, 20)}`,
			);
		const value = siOf(number, column);
		if (value === null)
			return wrong(
				`${where}: ${shown(cell)} is out of range for ${shownWords(column.unit, 20)}: correct it or take the line out`,
			);
		digits.push(number);
		values.push(value);
	}
	return { ok: true, value: { line, values, digits } };
}

/**
 * The table in the text of a file: cells parted by commas, semicolons or tabs, decimals after a point or a comma, a header that gives every column its unit.
 * Empty lines and lines that begin with # or ! are passed over. One bad row refuses the whole file, with its line and reason.
 * @example parseTable('kHz,dB\n455,-3').ok // => true
 */
export function parseTable(text: string): Parsed<Table> {
	if (text.length > mostText)
		return wrong(`the file has ${text.length} characters: give a table of at most ${mostText}`);
	const lines = text.replace(/^\ufeff/, '').split(/\r\n|\r|\n/);
	let header: ReturnType<typeof headerOf> = null;
	const rows: TableRow[] = [];
	for (const [index, content] of lines.entries()) {
		const trimmed = content.trim();
		if (trimmed === '' || /^[#!]/.test(trimmed)) continue;
		if (!header) {
			header = headerOf(trimmed);
			if (!header) {
				return wrong(
					`line ${index + 1}: cannot read units from the header ${shown(trimmed)}: give a unit for each column, such as kHz,dB or frequency kc;level V`,
				);
			}
			continue;
		}
		const row = rowOf(content, index + 1, header);
		if (!row.ok) return row;
		if (rows.length === mostRows) return wrong(`line ${index + 1}: more than ${mostRows} rows: give fewer points`);
		rows.push(row.value);
	}
	if (!header)
		return wrong('the file is empty: give a header with units, such as kHz,dB, and one line for each reading');
	return { ok: true, value: { columns: header.columns, rows } };
}
