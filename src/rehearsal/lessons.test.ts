import { expect, test } from 'vitest';
import type { SetDesign } from '#core/receiver/design.ts';
import { designs } from '#core/receiver/designs/designs.ts';
import { factoryTurns } from '#core/receiver/factory.ts';
import { lessons } from './lessons.ts';
import { setAsFound } from './practice.ts';
import { practiceTruth } from './truth-beside.ts';

test.each(lessons)('lesson "$title": not done as it comes, done when worked', (lesson) => {
	const design = designs[lesson.design] as SetDesign;
	const found = setAsFound(design, 'any', { practice: { lesson: lesson.id, seed: 0, faults: [] }, lesson });
	const answers = lesson.question?.choices ?? [null];
	for (const answer of answers) expect(lesson.check({ set: found, levelV: 1e-3, answer, tried: [] }).isMet).toBe(false);
	const worked = { ...found, turns: factoryTurns(design) };
	const tried = Object.keys(design.adjusters);
	const verdicts = answers.map((answer) => lesson.check({ set: worked, levelV: 100e-6, answer, tried }));
	// One answer is right, and only one.
	expect(verdicts.filter(({ isMet }) => isMet)).toHaveLength(1);
});

test('the truth says what ailed the set and how its screws stood', () => {
	const design = designs['tm-517'] as SetDesign;
	const practice = { seed: 12, faults: ['weak-if-tube'] };
	const found = setAsFound(design, 'any', { practice, lesson: null });
	const truth = practiceTruth(design, 'any', { practice, lesson: null }, { ...found, turns: factoryTurns(design) });
	expect(truth.faultWords).toBe('Its fault: weak IF tube.');
	expect(truth.screws.every(({ after }) => after === '0.0 eighths')).toBe(true);
	expect(truth.screws.some(({ before }) => before !== '0.0 eighths')).toBe(true);
	expect(setAsFound(design, 'any', { practice, lesson: null })).toEqual(found);
});
