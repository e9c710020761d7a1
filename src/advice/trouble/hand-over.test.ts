import { expect, test } from 'vitest';
import { handOvers } from './hand-over.ts';
import { outcomeOf, tellsOf } from './ranking.ts';
import { type TestId, tests } from './tests.ts';

const ids = Object.keys(tests) as TestId[];

test('every way belongs to an outcome of its test, and the trouble that it leads to listens to that test', () => {
	for (const id of ids)
		for (const { id: outcome } of tests[id].outcomes)
			for (const { answer, to } of handOvers([{ test: id, outcome }], 'aligned')) {
				expect(outcomeOf(answer.test, answer.outcome).ok).toBe(true);
				if ('trouble' in to) expect(tellsOf(to.trouble, id), `${id} for ${to.trouble}`).toBe(true);
			}
});

test('constant kilocycles lead to the IF, a curve that no circuits make to its trouble', () => {
	const ways = handOvers(
		[
			{ test: 'dial-pattern', outcome: 'kilocycles' },
			{ test: 'curve-fit', outcome: 'refused', words: 'chi-squared 6.1 per degree of freedom' },
		],
		'aligning',
	);
	expect(ways.map(({ to }) => to)).toEqual([{ screen: 'response' }, { trouble: 'width' }]);
});

test('what alignment puts right by itself is handed over only when it is done, and one place only once', () => {
	const lopsided = { test: 'curve', outcome: 'lopsided' } as const;
	expect(handOvers([lopsided], 'aligning')).toEqual([]);
	expect(handOvers([lopsided], 'aligned')).toHaveLength(1);
	const twice = handOvers(
		[
			{ test: 'three-points', outcome: 'part' },
			{ test: 'oscillator-heard', outcome: 'stops' },
		],
		'aligned',
	);
	expect(twice).toHaveLength(1);
	expect(handOvers([{ test: 'silence', outcome: 'quiet' }], 'aligned')).toEqual([]);
});
