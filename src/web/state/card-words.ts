import { type CardField, cardFields } from '#record/card-fields.ts';
import type { SetCard } from '#record/set-card.ts';

/** A card, or a part of it, as its form holds it: every field in the words that are typed. An empty field is a thing not known. */
export interface CardWords {
	[key: string]: string | CardWords | CardWords[];
}

type Raw = Record<string, unknown>;

function worded(field: CardField, value: unknown): string | CardWords | CardWords[] {
	switch (field.kind) {
		case 'one':
			return wordsOf((value ?? {}) as Raw, field.fields);
		case 'rows':
			return ((value ?? []) as Raw[]).map((row) => wordsOf(row, field.fields));
		case 'many words':
			return ((value ?? []) as string[]).join(', ');
		case 'choice':
			return value === undefined || (value === 'unknown' && !field.isNeeded) ? '' : String(value);
		default:
			return value === undefined ? '' : String(value);
	}
}

/** The words of a card, or of one of its parts. */
export function wordsOf(value: Readonly<Raw>, fields: readonly CardField[] = cardFields): CardWords {
	return Object.fromEntries(fields.map((field) => [field.key, worded(field, value[field.key])]));
}

/** The words of rows that one of the card's lists may begin with. */
export function rowsOf(key: string, rows: readonly Readonly<Raw>[]): CardWords[] {
	const field = cardFields.find((one) => one.key === key);
	return field && 'fields' in field ? rows.map((row) => wordsOf(row, field.fields)) : [];
}

const number = (words: string): number | string => (/^-?\d+(\.\d+)?$/.test(words) ? Number(words) : words);

function raw(field: CardField, words: CardWords[string] | undefined): unknown {
	if (field.kind === 'one' || field.kind === 'rows') {
		const parts = (Array.isArray(words) ? words : [words ?? {}]) as CardWords[];
		const found = parts.map((part) => rawFrom(part, field.fields)).filter((part) => !isEmpty(part));
		return field.kind === 'rows' ? (found.length > 0 ? found : undefined) : found[0];
	}
	const said = String(words ?? '').trim();
	if (said === '') return undefined;
	if (field.kind === 'many words')
		return said
			.split(/;|(?<!\d),|,(?!\d{3}\b)/)
			.map((one) => one.trim())
			.filter(Boolean);
	return field.kind === 'whole' || field.kind === 'fraction' ? number(said) : said;
}

/** A row of which nothing is said but the id that the form gave it. */
const isEmpty = (part: Raw): boolean => Object.keys(part).every((key) => key === 'id');

/** The form's words as a card, or a part of one, unchecked. */
function rawFrom(words: CardWords, fields: readonly CardField[]): Raw {
	return Object.fromEntries(
		fields.map((field) => [field.key, raw(field, words[field.key])]).filter(([, value]) => value !== undefined),
	);
}

/** The card that the form's words make, unchecked. */
export function cardFrom({ schema, version }: SetCard, words: CardWords): Raw {
	return { schema, version, ...rawFrom(words, cardFields) };
}

/** A row to be filled in; one that carries an id gets one that no other row has. */
export function newRow(field: CardField, rows: readonly CardWords[]): CardWords {
	const fields = 'fields' in field ? field.fields : [];
	const taken = new Set(rows.map(({ id }) => id));
	const kind = field.key === 'bands' ? 'band' : 'adjuster';
	let count = rows.length + 1;
	while (taken.has(`${kind}-${count}`)) count++;
	return Object.fromEntries(
		fields.map((part) => {
			if (part.key === 'id') return ['id', `${kind}-${count}`];
			if (part.key === 'name' && kind === 'adjuster') return ['name', `C${count}`];
			return [part.key, part.kind === 'choice' && part.isNeeded ? (part.choices[0] ?? '') : ''];
		}),
	);
}

/** The words of a card for its form, with a row ready for what most cards say first. */
export function formWords(card: SetCard): CardWords {
	const words = wordsOf(card);
	for (const field of cardFields) {
		const rows = words[field.key];
		if ((field.key === 'ifDesigned' || field.key === 'bands') && Array.isArray(rows) && rows.length === 0)
			rows.push(newRow(field, rows));
	}
	return words;
}
