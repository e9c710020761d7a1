import { digitUncertainty } from '#record/last-digit.ts';
import { parseTable, type Table } from '#record/table.ts';
import { InputFault } from './command.ts';
import { readInput } from './input.ts';

/** What a file of a dial's readings looks like. */
export const wantedReadings = 'a table with the header: dial kHz,heard kHz, and place mm where the marks were measured';

/** Columns of marks and of what was heard: by their names, otherwise in that order. */
function placesOf({ columns }: Table, path: string): readonly [number, number] {
	const frequencies = columns.flatMap(({ kind }, place) => (kind === 'frequency' ? [place] : []));
	const named = (pattern: RegExp): number =>
		columns.findIndex(({ name, kind }) => kind === 'frequency' && pattern.test(name));
	const [first, second, ...more] = frequencies;
	if (first === undefined || second === undefined || more.length > 0) {
		throw new InputFault(`${path}: line 1: give two columns of frequency, ${wantedReadings}`);
	}
	const dial = named(/dial|mark|pointer/);
	const heard = named(/heard|received|generator|station/);
	return dial >= 0 && heard >= 0 && dial !== heard ? [dial, heard] : [first, second];
}

/** One reading in a file. */
export interface FileMark {
	readonly dialHz: number;
	readonly heardHz: number;
	/** One unit of the last digit of what was heard, as a standard uncertainty. */
	readonly digitUncertaintyHz: number;
	/** Where the mark stands along the scale; `null` where the file does not have places. */
	readonly placeM: number | null;
	readonly line: number;
}

/** The readings of a dial in a file. */
export function marksIn(path: string): readonly FileMark[] {
	const table = parseTable(readInput(path, wantedReadings).toString('utf8'));
	if (!table.ok) throw new InputFault(`${path}: ${table.words}`);
	const [dial, heard] = placesOf(table.value, path);
	const ruler = table.value.columns.findIndex(({ kind }) => kind === 'place');
	return table.value.rows.map(({ line, values, digits }) => {
		const written = digits[heard] as string;
		const heardHz = values[heard] as number;
		return {
			dialHz: values[dial] as number,
			heardHz,
			digitUncertaintyHz: digitUncertainty(written, heardHz),
			placeM: ruler < 0 ? null : (values[ruler] as number),
			line,
		};
	});
}
