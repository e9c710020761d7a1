import { digitUncertainty } from '#record/last-digit.ts';
import type { QuantityKind } from '#record/quantity.ts';
import { parseTable, type Table } from '#record/table.ts';
import { InputFault } from './command.ts';
import { readInput } from './input.ts';

/** A column that a command wants: the word in its header and the kinds of quantity that serve. */
export interface WantedColumn {
	readonly word: string;
	readonly kinds: readonly QuantityKind[];
	/** How its header may read, for the person. */
	readonly example: string;
}

/** Values of one column, SI; decibels of one volt or one watt where it is wanted as a level and given as volts or watts. */
export interface ColumnValues {
	readonly values: readonly number[];
	/** Standard uncertainties by the last digit that was written, in the column's own unit after conversion. */
	readonly digitUncertainties: readonly number[];
}

const perDecade: Readonly<Partial<Record<QuantityKind, number>>> = { voltage: 20, power: 10 };

function valuesOf({ columns, rows }: Table, place: number, asLevel: boolean): ColumnValues {
	const kind = columns[place]?.kind as QuantityKind;
	const decade = asLevel ? perDecade[kind] : undefined;
	const cells = rows.map(({ values, digits }) => {
		const value = values[place] as number;
		const written = digits[place] as string;
		if (decade === undefined) return { value, uncertainty: digitUncertainty(written, value) };
		const uncertainty = (decade / Math.LN10) * digitUncertainty(written, 1);
		return { value: decade * Math.log10(Math.abs(value)), uncertainty };
	});
	return {
		values: cells.map(({ value }) => value),
		digitUncertainties: cells.map(({ uncertainty }) => uncertainty),
	};
}

/** The wanted columns of a table in a file, found by their words; what serves as a level is given in decibels. */
export function columnsIn(path: string, wanted: readonly WantedColumn[]): readonly ColumnValues[] {
	const example = wanted.map((column) => column.example).join(',');
	const table = parseTable(readInput(path, `a table with the columns ${example}`).toString('utf8'));
	if (!table.ok) throw new InputFault(`${path}: ${table.words}`);
	const { columns } = table.value;
	return wanted.map(({ word, kinds }) => {
		const place = columns.findIndex(({ name, kind }) => name.split(/\s+/).includes(word) && kinds.includes(kind));
		if (place < 0)
			throw new InputFault(`${path}: line 1: no column "${word}" that can be used: give the header ${example}`);
		const values = valuesOf(table.value, place, kinds.includes('level'));
		const bad = values.values.findIndex((value) => !Number.isFinite(value));
		if (bad >= 0)
			throw new InputFault(
				`${path}: line ${table.value.rows[bad]?.line}: 0 has no level in decibels: take the line out`,
			);
		return values;
	});
}
