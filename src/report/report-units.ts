import type { PrintedBlock } from './printed-document.ts';

/** How frequencies are written: as the trade wrote them, as today, or as today with wavelengths beside the places of the dial. */
export type FrequencyUnits = 'kc' | 'kHz' | 'm';

/** The units of a name, `null` when there are none of that name. */
export function unitsNamed(name: unknown): FrequencyUnits | null {
	return name === 'kc' || name === 'kHz' || name === 'm' ? name : null;
}

/** Metres times kilohertz: the speed of light. */
const metresTimesKHz = 299_792.458;
/** Dials were marked in metres from here on; below it stand intermediate frequencies and widths. */
const lowestDialKHz = 145;

/** A unit is told from a name by the space, or the edge of a drawing's label, before it. */
const modern = (text: string): string =>
	text
		.replace(/(?<=[ >])kc(\/s)?\b/g, 'kHz')
		.replace(/(?<=[ >])Mc(\/s)?\b/g, 'MHz')
		.replace(/(?<=\d )c(\/s)?\b/g, 'Hz')
		.replace(/^kc\b/, 'kHz');

function metres(words: string): string {
	const kilohertz = Number(words.replaceAll(',', ''));
	return kilohertz < lowestDialKHz ? '' : ` (${Math.round(metresTimesKHz / kilohertz)} m)`;
}

/** Places on the dial: after "at", the ends of a band, and a label that is nothing else. */
const withMetres = (text: string): string =>
	text
		.replace(/\bat ([\d,.]+) kHz/g, (all, words: string) => all + metres(words))
		.replace(
			/\b([\d,.]+) kHz to ([\d,.]+) kHz/g,
			(_, low: string, high: string) => `${low} kHz${metres(low)} to ${high} kHz${metres(high)}`,
		)
		.replace(/(?<=^|>)([\d,.]+) kHz(?=$|<)/g, (all, words: string) => all + metres(words));

function mapped<Value>(value: Value, say: (text: string) => string): Value {
	if (typeof value === 'string') return say(value) as Value;
	if (Array.isArray(value)) return value.map((inner) => mapped(inner, say)) as Value;
	if (typeof value !== 'object' || value === null) return value;
	return Object.fromEntries(Object.entries(value).map(([name, inner]) => [name, mapped(inner, say)])) as Value;
}

/** A document with its frequencies in the units that the person chose, in its tables and drawings too. */
export function inUnits(units: FrequencyUnits, blocks: readonly PrintedBlock[]): readonly PrintedBlock[] {
	if (units === 'kc') return blocks;
	return mapped(blocks, (text) => (units === 'm' ? withMetres(modern(text)) : modern(text)));
}
