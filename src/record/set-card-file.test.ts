import { readdirSync, readFileSync } from 'node:fs';
import { expect, test } from 'vitest';
import { setCardJsonSchema } from './set-card.ts';
import { parseSetCard } from './set-card-file.ts';
import { setFacts } from './set-facts.ts';

const least = { schema: 'peakwright/set-card', version: 1, supply: 'unknown' };
const text = (change: object) => JSON.stringify({ ...least, ...change });

test('a card needs nothing but the kind of supply, and says what it assumes', () => {
	const parsed = parseSetCard(text({}));
	expect(parsed.ok).toBe(true);
	if (!parsed.ok) return;
	const facts = setFacts(parsed.value);
	expect(facts.ok).toBe(true);
	if (!facts.ok) return;
	expect(facts.value.liveChassis).toBe(true);
	expect(facts.value.ifHz).toBe(null);
	expect(facts.value.assumptions.map(({ what }) => what)).toEqual(
		expect.arrayContaining(['supply', 'common', 'band', 'antenna', 'AVC']),
	);
});

test('every example is a card whose facts hold together', () => {
	for (const name of readdirSync('examples').filter((file) => file.endsWith('.json'))) {
		const parsed = parseSetCard(readFileSync(`examples/${name}`, 'utf8'));
		expect(parsed, name).toMatchObject({ ok: true });
		if (parsed.ok) expect(setFacts(parsed.value), name).toMatchObject({ ok: true });
	}
});

test('a card that cannot be used is refused with the place and what to give', () => {
	const cases: readonly [string, RegExp][] = [
		['{"schema": "peakwright/set-card", "version": 1, "supp', /^this is not JSON/],
		['[]', /not a set card/],
		[text({ version: 2 }), /version: this card is of version 2.*use a newer/],
		[text({ version: '1' }), /version: give a whole number/],
		[text({ supply: 5 }), /^supply: /],
		[text({ colour: 'brown' }), /nothing called "colour" belongs here/],
		[
			text({ ifDesigned: [{ frequency: '455' }] }),
			/^ifDesigned, number 1, frequency: cannot read a frequency from "455"/,
		],
		[text({ year: 1492 }), /^year: /],
		[
			text({
				bands: [
					{ id: 'a', low: '540 kc', high: '1600 kc' },
					{ id: 'a', low: '6 Mc', high: '18 Mc' },
				],
			}),
			/"a" stands twice/,
		],
		[
			text({ adjusters: [{ id: 'x', name: 'x', stage: 'oscillator', kind: 'slug', bands: ['moon'] }] }),
			/not on the card/,
		],
		[text({ notes: 'x'.repeat(2_000_000) }), /longer than a million/],
		[
			`{"schema":"peakwright/set-card","version":1,"supply":"unknown","notes":${'['.repeat(200)}${']'.repeat(200)}}`,
			/nested too deeply/,
		],
	];
	for (const [card, words] of cases) {
		const parsed = parseSetCard(card);
		expect(parsed.ok).toBe(false);
		if (!parsed.ok) expect(parsed.words).toMatch(words);
	}
});

test('bands that wait for each other are refused', () => {
	const parsed = parseSetCard(
		text({
			bands: [
				{ id: 'a', low: '540 kc', high: '1600 kc', after: ['b'] },
				{ id: 'b', low: '6 Mc', high: '18 Mc', after: ['a'] },
			],
		}),
	);
	expect(parsed.ok && setFacts(parsed.value)).toMatchObject({
		ok: false,
		words: expect.stringContaining('waits for another'),
	});
});

test('a hostile string stays the text that it is', () => {
	const parsed = parseSetCard(text({ maker: '<script>alert(1)</script>', notes: '\u202e"; DROP TABLE sets; --' }));
	expect(parsed.ok && parsed.value.maker).toBe('<script>alert(1)</script>');
});

test('the published schema is the one that cards are checked with', () => {
	expect(JSON.parse(readFileSync('docs/set-card.schema.json', 'utf8'))).toEqual(
		JSON.parse(JSON.stringify(setCardJsonSchema())),
	);
});
