import { readFileSync } from 'node:fs';
import { expect, test } from 'vitest';
import { exampleSets, exampleText } from '../../test/example-set.ts';
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

// An oscillator below the signal runs at the dial's frequency less the IF: at 150 kc and an IF of 455 kc that is less than nothing.
test('an oscillator that would have to run at less than nothing is refused', () => {
	const factsOf = (low: string, oscillator: 'above' | 'below') => {
		const bands = [{ id: 'lw', name: 'long wave', low, high: '600 kc', oscillator }];
		const parsed = parseSetCard(text({ ifDesigned: [{ frequency: '455 kc' }], bands }));
		return parsed.ok ? setFacts(parsed.value) : parsed;
	};
	expect(factsOf('150 kc', 'below')).toEqual({
		ok: false,
		words: 'bands: long wave reaches below the IF: its oscillator cannot run below the signal; give "above"',
	});
	expect(factsOf('150 kc', 'above').ok).toBe(true);
	expect(factsOf('500 kc', 'below').ok).toBe(true);
});

test('every example is a card whose facts hold together', () => {
	for (const name of exampleSets()) {
		const parsed = parseSetCard(exampleText(name));
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
			/^adjusters: "x" names the band "moon", which is not on the card/,
		],
		// What hangs on a band that is misspelt would be lost without a word.
		[
			text({ bands: [{ id: 'bc', low: '540 kc', high: '1600 kc' }], scales: [{ band: 'cb', marks: ['600 kc'] }] }),
			/^scales: one names the band "cb"/,
		],
		[
			text({ bands: [{ id: 'bc', low: '540 kc', high: '1600 kc', after: ['sw'] }] }),
			/^bands: "bc" names the band "sw"/,
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

test('what is missing is said in plain words and with its place', () => {
	const parsed = parseSetCard(text({ bands: [{ id: 'broadcast', low: '540 kc' }] }));
	expect(parsed).toMatchObject({ ok: false, words: expect.stringMatching(/^bands, number 1, high: this is missing/) });
});

test('sets that no sheet is made for yet can be described all the same', () => {
	const head = { schema: 'peakwright/set-card', version: 1 } as const;
	const others = {
		TRF: {
			...head,
			supply: 'battery',
			circuit: 'TRF',
			detector: 'grid leak',
			gang: { sections: 3 },
			adjusters: [
				{ id: 'rf1', name: 'C1', stage: 'RF', transformer: 1, end: 'high', kind: 'air trimmer' },
				{ id: 'rf2', name: 'C2', stage: 'RF', transformer: 2, end: 'high', kind: 'air trimmer' },
			],
		},
		'AM and FM': {
			...head,
			supply: 'transformer',
			ifDesigned: [
				{ frequency: '455 kc', use: 'AM' },
				{ frequency: '10.7 Mc', use: 'FM' },
			],
			bands: [
				{ id: 'broadcast', low: '540 kc', high: '1600 kc', modulation: 'AM' },
				{ id: 'fm', low: '88 Mc', high: '108 Mc', modulation: 'FM' },
			],
			detector: 'diode',
			fmDetector: 'ratio detector',
			adjusters: [
				{ id: 'ratio', name: 'T5 sec.', stage: 'detector', use: 'FM', winding: 'secondary', kind: 'slug' },
				{ id: 'if2-am', name: 'T4', stage: 'IF', use: 'AM', transformer: 2, kind: 'slug' },
			],
		},
		'transistors on a rod': {
			...head,
			supply: 'battery',
			active: 'transistors',
			antenna: 'rod',
			tubes: [{ stage: 'converter', type: 'OC44' }],
			adjusters: [{ id: 'rod', name: 'rod coil', stage: 'antenna', end: 'low', kind: 'other' }],
		},
		'permeability in a car': {
			...head,
			supply: 'battery',
			tuning: 'permeability',
			antenna: 'car',
			adjusters: [{ id: 'core', name: 'oscillator core', stage: 'oscillator', end: 'low', kind: 'slug' }],
		},
		'crystal filter and two IFs': {
			...head,
			supply: 'transformer',
			ifDesigned: [
				{ frequency: '1.65 Mc', use: 'first of two' },
				{ frequency: '456.9 kc', use: 'second of two' },
			],
			adjusters: [{ id: 'phasing', name: 'phasing', stage: 'filter', kind: 'air trimmer' }],
		},
	};
	for (const [kind, card] of Object.entries(others)) {
		const parsed = parseSetCard(JSON.stringify(card));
		expect(parsed.ok ? kind : parsed.words).toBe(kind);
	}
});

test('places of a scale that do not go with its marks are refused with what to do', () => {
	const withScale = (places: readonly string[]) =>
		parseSetCard(
			JSON.stringify({
				schema: 'peakwright/set-card',
				version: 1,
				supply: 'transformer',
				scales: [{ band: 'broadcast', marks: ['600 kc', '1000 kc', '1400 kc'], places }],
			}),
		);
	expect(withScale(['10 mm', '60 mm', '90 mm']).ok).toBe(true);
	expect(withScale(['90 mm', '60 mm', '10 mm']).ok).toBe(true);
	expect(withScale(['10 mm', '60 mm'])).toMatchObject({ words: expect.stringContaining('3 marks and 2 places') });
	expect(withScale(['10 mm', '95 mm', '90 mm'])).toMatchObject({
		words: expect.stringContaining('1000 kc and 1400 kc'),
	});
});

test('a scale of a card without bands is of the broadcast band', () => {
	expect(parseSetCard(text({ scales: [{ band: 'broadcast', travel: '150 mm' }] })).ok).toBe(true);
});

// Common practice: sheets of small sets often name one frequency alone, 1,400 or 600 kc.
test('one alignment frequency alone is of the end that it lies nearer to', () => {
	const marks = (alignAt: string[]) => {
		const parsed = parseSetCard(text({ bands: [{ id: 'bc', low: '540 kc', high: '1600 kc', alignAt }] }));
		const facts = parsed.ok ? setFacts(parsed.value) : null;
		const [band] = facts?.ok ? facts.value.bands : [];
		return [band?.lowMarkHz, band?.highMarkHz];
	};
	expect(marks(['600 kc'])).toEqual([600e3, 1400e3]);
	expect(marks(['1500 kc'])).toEqual([600e3, 1500e3]);
	expect(marks(['1500 kc', '580 kc'])).toEqual([580e3, 1500e3]);
});
