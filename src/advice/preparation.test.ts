import { expect, test } from 'vitest';
import { exampleCard, factsOf, sheetOf } from '../../test/example-set.ts';
import { openPreparations } from './preparation.ts';

const { steps } = sheetOf(factsOf(exampleCard()));
const stepOf = (id: string) => {
	const step = steps.find((one) => one.id === id);
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
