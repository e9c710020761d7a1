import type { Parsed } from './parsed.ts';
import { siValue } from './quantity.ts';
import { type SetCard, setCardSchema } from './set-card.ts';
import { usualBand } from './set-facts.ts';
import { jsonFault, shownWords } from './shown-words.ts';

/** The version of the set card that this program writes. */
const setCardVersion = 1;
/** Longest set card that is read, in characters; chosen: a hundred times the longest card seen. */
const longestCard = 1_000_000;
const deepestNesting = 12;

type Raw = Readonly<Record<string, unknown>>;

/** One step from a version to the next; the list has one entry for each version that ever was, but the newest. */
const migrations: readonly ((older: Raw) => Raw)[] = [];

function isRecord(value: unknown): value is Raw {
	return typeof value === 'object' && value !== null && !Array.isArray(value);
}

function depth(value: unknown, sofar = 0): number {
	if (sofar > deepestNesting || typeof value !== 'object' || value === null) return sofar;
	return Math.max(sofar, ...Object.values(value).map((inner) => depth(inner, sofar + 1)));
}

/** Whether nothing at all stands where a path leads. */
function isMissing(value: unknown, path: readonly PropertyKey[]): boolean {
	const found = path.reduce<unknown>(
		(inner, step) => (inner as Record<PropertyKey, unknown> | undefined)?.[step],
		value,
	);
	return found === undefined;
}

function place(path: readonly PropertyKey[]): string {
	return path.map((step) => (typeof step === 'number' ? `number ${step + 1}` : String(step))).join(', ');
}

const wrong = (words: string): Parsed<SetCard> => ({ ok: false, words });

/** Places of a scale that do not go with its marks. */
function misplaced(card: SetCard): string | null {
	for (const { band, marks = [], places } of card.scales ?? []) {
		if (!places) continue;
		if (places.length !== marks.length)
			return `scales: "${band}" has ${marks.length} marks and ${places.length} places; give each mark its place, in the same order`;
		const sorted = marks
			.map((words, k) => ({ words, markHz: siValue('frequency', words), atM: siValue('place', places[k] as string) }))
			.sort((one, other) => one.markHz - other.markHz);
		const way = Math.sign((sorted.at(-1)?.atM ?? 0) - (sorted[0]?.atM ?? 0));
		const stray = sorted.findIndex(({ atM }, k) => k > 0 && !(way * (atM - (sorted[k - 1]?.atM ?? 0)) > 0));
		if (stray > 0)
			return `scales: the places of ${sorted[stray - 1]?.words} and ${sorted[stray]?.words} do not run on along the scale; measure them again`;
	}
	return null;
}

/** A band that is named and is not on the card, with where it is named. */
function strayBand({ adjusters = [], bands = [], scales = [] }: SetCard): string | null {
	const known = new Set(bands.length > 0 ? bands.map(({ id }) => id) : [usualBand.id]);
	const named = [
		...adjusters.flatMap((one) => (one.bands ?? []).map((band) => ({ where: `adjusters: "${one.id}"`, band }))),
		...scales.map(({ band }) => ({ where: 'scales: one', band })),
		...bands.flatMap(({ id, after = [] }) => after.map((band) => ({ where: `bands: "${id}"`, band }))),
	];
	const stray = named.find(({ band }) => !known.has(band));
	return stray
		? `${stray.where} names the band "${stray.band}", which is not on the card; add that band or take its name away`
		: null;
}

/**
 * Two adjusters or bands with one id, a band named that is not on the card, places that do not go with their marks: what the schema alone cannot see.
 */
function contradiction(card: SetCard): string | null {
	for (const [what, list] of [
		['adjusters', card.adjusters ?? []],
		['bands', card.bands ?? []],
	] as const) {
		const ids = list.map(({ id }) => id);
		const twice = ids.find((id, index) => ids.indexOf(id) !== index);
		if (twice !== undefined) return `${what}: "${twice}" stands twice; give each its own id`;
	}
	return strayBand(card) ?? misplaced(card);
}

/**
 * The set card in a value that came from JSON, brought to the newest version, or what is wrong with it and where.
 */
export function checkSetCard(value: unknown): Parsed<SetCard> {
	if (!isRecord(value)) return wrong('this is not a set card: give a JSON object with "schema": "peakwright/set-card"');
	if (depth(value) > deepestNesting) return wrong('this is not a set card: it is nested too deeply');
	if (value.schema !== 'peakwright/set-card') {
		return wrong('this is not a set card: "schema" has to be "peakwright/set-card"');
	}
	const version = value.version;
	if (typeof version !== 'number' || !Number.isInteger(version) || version < 1) {
		return wrong(`version: give a whole number from 1 to ${setCardVersion}`);
	}
	if (version > setCardVersion) {
		return wrong(
			`version: this card is of version ${version}, this program reads up to ${setCardVersion}; use a newer Peakwright`,
		);
	}
	const newest = migrations.slice(version - 1).reduce((card, migrate) => migrate(card), value);
	const result = setCardSchema.safeParse(newest);
	if (!result.success) {
		const [first] = result.error.issues;
		const at = first && first.path.length > 0 ? `${place(first.path)}: ` : '';
		const keys =
			first?.code === 'unrecognized_keys'
				? `nothing called ${first.keys.map((key) => `"${shownWords(key)}"`).join(', ')} belongs here`
				: first && isMissing(newest, first.path)
					? 'this is missing: give it, or take its whole entry off the card'
					: first?.message;
		return wrong(`${at}${keys ?? 'not a set card'}`);
	}
	const fault = contradiction(result.data);
	return fault === null ? { ok: true, value: result.data } : wrong(fault);
}

/** The set card in the text of a file, or what is wrong with it and where. */
export function parseSetCard(text: string): Parsed<SetCard> {
	if (text.length > longestCard) return wrong('this is not a set card: it is longer than a million characters');
	let value: unknown;
	try {
		value = JSON.parse(text);
	} catch (error) {
		return wrong(jsonFault(text, error));
	}
	return checkSetCard(value);
}
