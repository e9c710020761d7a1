import { expect, test } from 'vitest';
import { type PartFormId, partFormOf, partForms } from './part-form.ts';
import { partAnswer, partNames } from './part-request.ts';
import { PartWords } from './part-words.ts';

const ids = Object.keys(partForms) as PartFormId[];

test('every part has a form, and each form is answered by its own examples', () => {
	expect(new Set(ids.map((id) => partForms[id].part))).toEqual(new Set(partNames));
	for (const id of ids) {
		const form = partFormOf(id);
		if (!form) throw new Error(id);
		const values = Object.fromEntries(form.needed.map(({ name, example }) => [name, example]));
		const options = new PartWords(
			values,
			(name) => name,
			(words) => new Error(words),
		);
		const given = [...(form.ahead ?? []), ...(form.nameless ?? []).map((name) => values[name] ?? '')];
		const answer = partAnswer(form.part, options, given);
		expect(answer.lines.length, id).toBeGreaterThan(0);
		expect(answer.sourceWords, id).not.toBe('');
	}
});

test('an inductance that is hardly known is refused instead of being judged by nothing', () => {
	const options = new PartWords(
		{ if: '455kc', inductance: '1.1mH', strays: '15mmf', trimmer: '5mmf-45mmf', 'inductance-known': '50%' },
		(name) => name,
		(words) => new Error(words),
	);
	expect(() => partAnswer('mica', options, [])).toThrow('inductance-known: give per cent below 50');
});

test('what is missing is named as the person reads it', () => {
	const options = new PartWords(
		{ if: '455kc' },
		(name) => `\u201c${name}\u201d`,
		(words) => new RangeError(words),
	);
	expect(() => partAnswer('mica', options, [])).toThrow('\u201cinductance\u201d is missing: give it, such as 1.1mH');
	expect(() => partAnswer('mica', options, [])).toThrow(RangeError);
});
