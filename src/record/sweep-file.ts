import { lastDigit, withinLastDigit } from './last-digit.ts';
import type { Parsed } from './parsed.ts';
import { shownWords } from './shown-words.ts';
import { type Sweep, type SweepPoint, sweepLimits } from './sweep.ts';
import { parseTable, type Table, type TableRow } from './table.ts';
import { parseTouchstone } from './touchstone.ts';

const fewestUsual = 5;
const wrong = (words: string): Parsed<never> => ({ ok: false, words });

/** Decibels of a voltage or a power of 1. */
const decibelsPerDecade = { voltage: 20, power: 10 } as const;
interface Places {
	readonly frequencyColumn: number;
	readonly levelColumn: number;
	readonly levelKind: 'level' | 'voltage' | 'power';
	readonly uncertaintyColumn: number | null;
}

function placesOf({ columns }: Table): Parsed<Places> {
	const uncertain = columns.findIndex(({ name, kind }) => kind === 'level' && /uncert|error|sigma|\u00b1/.test(name));
	const frequencies = columns.flatMap(({ kind }, place) => (kind === 'frequency' ? [place] : []));
	const levels = columns.flatMap(({ kind }, place) =>
		place !== uncertain && (kind === 'level' || kind === 'voltage' || kind === 'power') ? [place] : [],
	);
	const [frequency] = frequencies;
	const [level] = levels;
	const given = shownWords(columns.map(({ words }) => words).join(', '), 100);
	if (frequency === undefined || frequencies.length > 1)
		return wrong(`line 1: ${frequencies.length} columns of frequency in "${given}": give one, such as kHz or kc`);
	if (level === undefined || levels.length > 1)
		return wrong(`line 1: ${levels.length} columns of level in "${given}": give one, in dB, V or W`);
	const levelKind = (columns[level] as { kind: string }).kind as Places['levelKind'];
	return {
		ok: true,
		value: {
			frequencyColumn: frequency,
			levelColumn: level,
			levelKind,
			uncertaintyColumn: uncertain < 0 ? null : uncertain,
		},
	};
}

/** A point and the line of the file that it came from, counted from 1. */
interface PointInFile {
	readonly line: number;
	readonly point: SweepPoint;
}

function pointOf(
	{ line, values, digits }: TableRow,
	{ frequencyColumn, levelColumn, levelKind, uncertaintyColumn }: Places,
): Parsed<SweepPoint> {
	const frequencyHz = values[frequencyColumn] as number;
	const value = values[levelColumn] as number;
	const written = digits[levelColumn] as string;
	const resolution = lastDigit(written) * withinLastDigit;
	const givenDb = uncertaintyColumn === null ? null : Math.abs(values[uncertaintyColumn] as number);
	if (levelKind === 'level') {
		return { ok: true, value: { frequencyHz, levelDb: value, uncertaintyDb: Math.max(givenDb ?? 0, resolution) } };
	}
	const size = Math.abs(value);
	if (size === 0)
		return wrong(`line ${line}: 0 has no level in decibels: take the line out or read it with a stronger signal`);
	const decade = decibelsPerDecade[levelKind];
	const share = resolution / Math.abs(Number(written));
	return {
		ok: true,
		value: {
			frequencyHz,
			levelDb: decade * Math.log10(size),
			uncertaintyDb: Math.max(givenDb ?? 0, (decade / Math.LN10) * share),
		},
	};
}

function tableSweep(text: string, name: string, fewest: number): Parsed<Sweep> {
	const table = parseTable(text);
	if (!table.ok) return table;
	const places = placesOf(table.value);
	if (!places.ok) return places;
	const points: PointInFile[] = [];
	for (const row of table.value.rows) {
		const point = pointOf(row, places.value);
		if (!point.ok) return point;
		points.push({ line: row.line, point: point.value });
	}
	return finished(name, 'table', points, fewest);
}

function finished(
	name: string,
	source: Sweep['source'],
	inFile: readonly PointInFile[],
	fewest: number,
): Parsed<Sweep> {
	if (inFile.length < fewest) return wrong(`${inFile.length} points: an IF curve needs at least ${fewest}`);
	for (const { line, point } of inFile) {
		const { mostHz, mostDb } = sweepLimits;
		if (point.frequencyHz > mostHz || Math.abs(point.levelDb) > mostDb || (point.uncertaintyDb ?? 0) > mostDb)
			return wrong(
				`line ${line}: ${point.frequencyHz.toPrecision(4)} Hz with ${point.levelDb.toPrecision(4)} dB is no point of an IF curve: give frequencies below 1 GHz and levels within 1000 dB`,
			);
	}
	const sorted = inFile.map(({ point }) => point).sort((one, other) => one.frequencyHz - other.frequencyHz);
	const distinct = new Set(sorted.map(({ frequencyHz }) => frequencyHz)).size;
	if (distinct < fewest) return wrong(`${distinct} different frequencies: an IF curve needs at least ${fewest}`);
	return { ok: true, value: { name, source, points: sorted } };
}

/**
 * The sweep in the text of a file: Touchstone when it has an option line, otherwise a table with one column of frequency and one of level (dB, V or W, and optionally its uncertainty in dB).
 * Rows may stand in any order and a frequency may be read twice; all are kept. Anything that cannot be read refuses the whole file, with its line and reason.
 * @param name what the sweep is called
 * @param fewest points that it must have; 3 will do after a nudge
 */
export function parseSweep(text: string, name: string, parameter?: 'S11' | 'S21', fewest = fewestUsual): Parsed<Sweep> {
	const isTouchstone =
		/^\s*#\s*(?:(?:[kmg]?hz|s|db|ma|ri|r\s*\d+)\b\s*)+/im.test(text.slice(0, 20_000)) ||
		/^\s*\[version\]/im.test(text.slice(0, 2000));
	if (!isTouchstone) return tableSweep(text, name, fewest);
	const trace = parseTouchstone(text, parameter);
	if (!trace.ok) return trace;
	const { frequenciesHz, levelsDb, lines } = trace.value;
	return finished(
		name,
		'Touchstone',
		frequenciesHz.map((frequencyHz, index) => ({
			line: lines[index] as number,
			point: { frequencyHz, levelDb: levelsDb[index] as number, uncertaintyDb: null },
		})),
		fewest,
	);
}
