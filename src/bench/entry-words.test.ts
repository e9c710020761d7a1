import { expect, test } from 'vitest';
import { gateFor } from '#advice/gates.ts';
import { usualLanguage } from '#record/language.ts';
import type { Happening } from '#record/run.ts';
import { exampleCard, factsOf, sheetOf } from '../../test/example-set.ts';
import { entryNames } from './entry-names.ts';
import { entryWords } from './entry-words.ts';

const card = exampleCard();
const facts = factsOf(card);
const names = entryNames({ card, options: {} }, usualLanguage);
const said = (what: Happening): string => entryWords({ what }, names, usualLanguage);

test('a step that was done is told by its title and the questions of the sheet', () => {
	for (const { id, title, questions } of sheetOf(facts).steps) {
		const answers = Object.fromEntries(questions.map((question) => [question.id, 'yes']));
		const words = said({ kind: 'step done', step: id, pass: 1, answers });
		expect(words.startsWith(`done: ${title}`)).toBe(true);
		for (const asked of questions) expect(words).toMatch(new RegExp(`${asked.words.replace(/[().?]/g, '.')}:? yes\\.`));
		expect(said({ kind: 'step begun', step: id, pass: 2 })).toBe(`begun, pass 2: ${title}`);
	}
});

test('an adjuster is told by the name on the card', () => {
	for (const { id, name } of card.adjusters ?? []) {
		expect(said({ kind: 'sweep begun', role: 'nudge', adjuster: id })).toBe(`sweep begun after a nudge of ${name}`);
		expect(
			said({
				kind: 'adjusted',
				step: 'if',
				pass: 1,
				adjuster: id,
				eighths: -3,
				beforeDb: null,
				afterDb: null,
				bestDb: null,
			}),
		).toBe(`${name} turned \u22123/8`);
	}
});

test('a gate is told by its title, what was confirmed and what the meter said', () => {
	const gate = gateFor('first hook-up', facts, 'converter grid');
	const answers = Object.fromEntries([
		...gate.confirmations.map(({ id }) => [id, 'yes'] as const),
		...gate.measurements.map(({ id }) => [id, '0.2 V'] as const),
	]);
	const words = said({ kind: 'gate passed', gate: gate.id, answers });
	expect(words.startsWith(`${gate.title} (converter grid): `)).toBe(true);
	for (const one of gate.confirmations) expect(words).toContain(one.words);
	for (const one of gate.measurements) expect(words).toContain(`${one.words}: 0.2 V.`);
});

test('an answer to a trouble is told in the words that were asked, one of another version as it was kept', () => {
	const answered = { kind: 'test answered', trouble: 'weak', test: 'three-points', outcome: 'alike' } as const;
	expect(said(answered)).toMatch(/^Weak over the whole band: Find the generator level .* Everywhere alike$/);
	expect(said({ ...answered, trouble: 'later', test: 'later-test', outcome: 'later' })).toBe('later: later-test later');
});
