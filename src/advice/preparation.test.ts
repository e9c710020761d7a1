import { readFileSync } from 'node:fs';
import { expect, test } from 'vitest';
import { parseSetCard } from '#record/set-card-file.ts';
import { setFacts } from '#record/set-facts.ts';
import { openPreparations } from './preparation.ts';
import { makeSheet } from './sheet.ts';
import { usualOptions } from './sheet-options.ts';

const card = parseSetCard(readFileSync('examples/thistlemoor-tm-517.json', 'utf8'));
const facts = card.ok ? setFacts(card.value) : card;
const sheet = facts.ok ? makeSheet(facts.value, usualOptions) : facts;
if (!sheet.ok) throw new Error(sheet.words);
const stepOf = (id: string) => {
	const step = sheet.value.steps.find((one) => one.id === id);
	if (!step) throw new Error(`missing step: ${id}`);
	return step;
};
const openOf = (id: string, answers: Record<string, string>) =>
	openPreparations(stepOf(id), answers).map(({ id }) => id);

test('a screw that is not marked, or of which nothing is said, keeps the work from going on', () => {
	expect(openOf('marking', {})).toEqual(['marked']);
	expect(openOf('marking', { marked: '' })).toEqual(['marked']);
	expect(openOf('marking', { marked: 'no' })).toEqual(['marked']);
	expect(openOf('marking', { marked: 'yes' })).toEqual([]);
	expect(openOf('preparation', { marked: 'yes' })).toEqual(['ready']);
	expect(openOf('preparation', { ready: 'yes' })).toEqual([]);
});

test('triage judges its own answers, and adjusting asks for none', () => {
	expect(openOf('triage', {})).toEqual([]);
	expect(openOf('if', {})).toEqual([]);
});
