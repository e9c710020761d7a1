import fc from 'fast-check';
import { expect, test } from 'vitest';
import { makeSheet } from '#advice/sheet.ts';
import { usualOptions } from '#advice/sheet-options.ts';
import { exampleText } from '../../test/example-set.ts';
import { parseSetCard } from './set-card-file.ts';
import { setFacts } from './set-facts.ts';

const text = exampleText();
type Json = null | boolean | number | string | Json[] | { [key: string]: Json };
const card = JSON.parse(text) as { [key: string]: Json };

/** Every place in a value, as the path that leads to it. */
function paths(value: Json, path: readonly string[] = []): (readonly string[])[] {
	if (typeof value !== 'object' || value === null) return [path];
	return [path, ...Object.entries(value).flatMap(([key, inner]) => paths(inner, [...path, key]))];
}
const places = paths(card);

/** The value with another at a place. */
function changed(value: Json, [key, ...rest]: readonly string[], to: (old: Json) => Json): Json {
	if (key === undefined) return to(value);
	const copy = structuredClone(value) as { [key: string]: Json };
	copy[key] = changed(copy[key] as Json, rest, to);
	return copy;
}

/** Reads a card as the program does, to the sheet and back; what is refused has words, what is taken holds to the end. */
function heldOrRefused(words: string): boolean {
	const parsed = parseSetCard(words);
	if (!parsed.ok) return parsed.words.length > 10;
	const facts = setFacts(parsed.value);
	if (!facts.ok) return facts.words.length > 10;
	const sheet = makeSheet(facts.value, usualOptions);
	return sheet.ok ? sheet.value.steps.length > 0 : sheet.words.length > 10;
}

test('a card cut off anywhere is refused', () => {
	fc.assert(
		fc.property(fc.nat(text.trimEnd().length - 1), (length) => {
			const parsed = parseSetCard(text.slice(0, length));
			return !parsed.ok && parsed.words.startsWith('this is not JSON');
		}),
	);
});

test('whatever stands at any place of a card, it is refused in words or leads to a sheet', () => {
	const strange = fc.oneof(
		fc.jsonValue({ maxDepth: 3 }) as fc.Arbitrary<Json>,
		fc.constantFrom<Json>(
			'',
			' ',
			'0 kc',
			'-455 kc',
			'1e400 kc',
			'455 kc '.repeat(20),
			'\u0000',
			'__proto__',
			1e308,
			-1,
			0.5,
			[],
			{},
		),
		fc.string({ unit: 'binary', maxLength: 40 }),
	);
	fc.assert(
		fc.property(fc.constantFrom(...places), strange, (place, value) =>
			heldOrRefused(JSON.stringify(changed(card, place, () => value))),
		),
		{ numRuns: 200 },
	);
});

test('a key that no card has is named and refused, wherever it stands', () => {
	const records = places.filter((place) => {
		const value = place.reduce<Json>((inner, key) => (inner as { [key: string]: Json })[key] as Json, card);
		return typeof value === 'object' && value !== null && !Array.isArray(value);
	});
	expect(records.length).toBeGreaterThan(5);
	for (const place of records) {
		const parsed = parseSetCard(
			JSON.stringify(changed(card, place, (old) => ({ ...(old as object), colour: 'brown' }))),
		);
		expect(parsed, place.join(' ')).toMatchObject({ ok: false, words: expect.stringContaining('"colour"') });
	}
});

test('a card of a later program, of fifty megabytes or nested without end is refused', () => {
	const cases: readonly [string, RegExp][] = [
		[JSON.stringify({ ...card, version: 99 }), /use a newer Peakwright/],
		[JSON.stringify({ ...card, notes: 'x'.repeat(50_000_000) }), /longer than a million characters/],
		[`{"schema":"peakwright/set-card","version":1,"supply":"unknown","notes":${'[['.repeat(200_000)}`, /./],
		[`${'{"a":'.repeat(90_000)}1${'}'.repeat(90_000)}`, /./],
		[`${'['.repeat(400_000)}${']'.repeat(400_000)}`, /./],
	];
	for (const [words, refusal] of cases) {
		const parsed = parseSetCard(words);
		expect(parsed.ok).toBe(false);
		if (!parsed.ok) expect(parsed.words).toMatch(refusal);
	}
});
