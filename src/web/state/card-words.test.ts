import { expect, test } from 'vitest';
import { type CardField, cardFields } from '#record/card-fields.ts';
import type { SetCard } from '#record/set-card.ts';
import { checkSetCard } from '#record/set-card-file.ts';
import { exampleCard, exampleSets } from '../../../test/example-set.ts';
import { cardFrom, formWords, newRow, wordsOf } from './card-words.ts';

/** A card without what only says that a thing is unknown: the form holds it as an empty field. */
function withoutUnknown(value: unknown): unknown {
	if (Array.isArray(value)) return value.map(withoutUnknown);
	if (typeof value !== 'object' || value === null) return value;
	return Object.fromEntries(
		Object.entries(value)
			.filter(([key, inner]) => inner !== 'unknown' || key === 'supply')
			.map(([key, inner]) => [key, withoutUnknown(inner)]),
	);
}

test('a card goes through the form and comes out as it was', () => {
	for (const name of exampleSets()) {
		const card = exampleCard(name);
		const again = checkSetCard(cardFrom(card, wordsOf(card)));
		expect(again, name).toEqual({ ok: true, value: withoutUnknown(card) });
	}
});

const least: SetCard = { schema: 'peakwright/set-card', version: 1, supply: 'unknown' };

test('an empty form is a card of which only the supply is said', () => {
	expect(cardFrom(least, wordsOf(least))).toEqual(least);
	const rows = { ...wordsOf(least), bands: [{ id: 'band-1', low: '', high: ' ' }] };
	expect(cardFrom(least, rows)).toEqual(least);
});

test('several frequencies in one field are parted at commas, but not within a figure', () => {
	const words = {
		...wordsOf(least),
		bands: [{ id: 'b', low: '540 kc', high: '1,600 kc', alignAt: '1,400 kc, 600 kc' }],
	};
	expect(cardFrom(least, words).bands).toEqual([
		{ id: 'b', low: '540 kc', high: '1,600 kc', alignAt: ['1,400 kc', '600 kc'] },
	]);
	const tight = { ...words, bands: [{ id: 'b', low: '540 kc', high: '1600 kc', alignAt: '1400 kc,600 kc; 550 kc' }] };
	expect(cardFrom(least, tight).bands).toEqual([
		{ id: 'b', low: '540 kc', high: '1600 kc', alignAt: ['1400 kc', '600 kc', '550 kc'] },
	]);
});

test('what is no number stays as typed, so that the check can say so', () => {
	expect(cardFrom(least, { ...wordsOf(least), year: 'about 1938' }).year).toBe('about 1938');
});

test('the form has every field of the card that a person fills in', () => {
	const keys = (fields: readonly CardField[]): string[] =>
		fields.flatMap((field) => ('fields' in field ? field.fields.map(({ key }) => `${field.key}.${key}`) : [field.key]));
	expect(keys(cardFields)).toEqual(
		expect.arrayContaining([
			'supply',
			'fmDetector',
			'gang.capacitance',
			'bands.alignAt',
			'adjusters.clockwise',
			'scales.marks',
		]),
	);
});

test('an added row has an id of its own', () => {
	const field = cardFields.find(({ key }) => key === 'adjusters');
	if (!field) throw new Error('missing field');
	expect(newRow(field, [{ id: 'adjuster-2' }])).toMatchObject({ id: 'adjuster-3', stage: 'IF', name: 'C3' });
});

test('a new card has a row ready for its IF and its band, and leaves them out when they stay empty', () => {
	const words = formWords(least);
	expect(words.ifDesigned).toHaveLength(1);
	expect(words.bands).toHaveLength(1);
	expect(cardFrom(least, words)).toEqual(least);
});
