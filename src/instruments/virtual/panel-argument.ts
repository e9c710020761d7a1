import { voltsOf } from '#record/level-unit.ts';

/** What a parameter of a message was read as: a value, or the number of the error. */
export type Argument<Value> = { readonly value: Value } | { readonly error: number };

/** Suffixes of SCPI: MHZ is mega, MV is milli [scpi-1999]. */
const suffixes = {
	Hz: { '': 1, HZ: 1, KHZ: 1e3, MHZ: 1e6, MAHZ: 1e6, GHZ: 1e9 },
	V: { '': 1, V: 1, MV: 1e-3, UV: 1e-6 },
	share: { '': 0.01, PCT: 0.01 },
	turns: { '': 1 },
} as const satisfies Record<string, Readonly<Record<string, number>>>;

const numeric = /^([+-]?(?:\d+\.?\d*|\.\d+)(?:[eE][+-]?\d+)?)\s*([A-Za-z]*)$/;

function parsed(words: string): { readonly size: number; readonly suffix: string } | null {
	const [, digits, suffix = ''] = numeric.exec(words.trim()) ?? [];
	return digits === undefined ? null : { size: Number(digits), suffix: suffix.toUpperCase() };
}

/** The ends belong to a range, whatever rounding the units bring. */
const inRange = (value: number, least: number, most: number): Argument<number> =>
	value >= least * (1 - 1e-9) && value <= most * (1 + 1e-9) ? { value } : { error: -222 };

/** A number with a suffix of its kind, within a range. */
export function numberArgument(
	words: string,
	kind: keyof typeof suffixes,
	least: number,
	most: number,
): Argument<number> {
	const read = parsed(words);
	if (!read) return { error: -104 };
	const factor = (suffixes[kind] as Readonly<Record<string, number>>)[read.suffix];
	return factor === undefined ? { error: -131 } : inRange(read.size * factor, least, most);
}

/** A generator's level as open-circuit volts: plain numbers and DBM are decibels of a milliwatt at 50 ohms, V, MV and UV volts across 50 ohms. */
export function levelArgument(words: string, leastV: number, mostV: number): Argument<number> {
	const read = parsed(words);
	if (!read) return { error: -104 };
	if (read.suffix === '' || read.suffix === 'DBM') return inRange(voltsOf(read.size), leastV, mostV);
	const factor = (suffixes.V as Readonly<Record<string, number>>)[read.suffix];
	return factor === undefined ? { error: -131 } : inRange(2 * read.size * factor, leastV, mostV);
}

/** ON, OFF, 1 or 0. */
export function switchArgument(words: string): Argument<boolean> {
	const word = words.trim().toUpperCase();
	if (word === 'ON' || word === '1') return { value: true };
	return word === 'OFF' || word === '0' ? { value: false } : { error: -224 };
}
