import { expect, test } from 'vitest';
import { answersOf, answersText, asideOf } from './trouble-address.ts';

test('answers and tests that are put aside are read out of an address as they were put in', () => {
	const answers = [{ test: 'three-points', outcome: 'high' }] as const;
	const text = answersText(answers, ['three-points']);
	expect(answersOf(text)).toEqual(answers);
	expect(asideOf(text)).toEqual(['three-points']);
});

test('of an address that was cut in the middle of a letter the rest is read', () => {
	expect(answersOf('three-points=high,three-points=%E2')).toEqual([{ test: 'three-points', outcome: 'high' }]);
});
