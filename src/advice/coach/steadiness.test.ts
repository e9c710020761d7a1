import { expect, test } from 'vitest';
import { createRandom } from '#core/numeric/random.ts';
import { scatterDb, settledLevelDb } from './steadiness.ts';

test('scatter is told from a slope', () => {
	const { gaussian } = createRandom(5);
	const sloping = Array.from({ length: 2000 }, (_, index) => 0.05 * index + 0.1 * gaussian());
	// The median of 2,000 sizes is known to about 3 %.
	expect(scatterDb(sloping)).toBeGreaterThan(0.09);
	expect(scatterDb(sloping)).toBeLessThan(0.11);
});

test('a steady reading settles within a second or two, a moving one does not', () => {
	let settled = 0;
	for (let seed = 0; seed < 200; seed++) {
		const { gaussian } = createRandom(seed);
		const steady = Array.from({ length: 10 }, () => -20 + 0.05 * gaussian());
		const level = settledLevelDb(steady, 0.05);
		if (level) {
			settled++;
			expect(Math.abs(level.value + 20)).toBeLessThan(5 * 0.05);
		}
		const moving = Array.from({ length: 10 }, (_, index) => 0.1 * index + 0.05 * gaussian());
		expect(settledLevelDb(moving, 0.05)).toBe(null);
	}
	// Three sigma of a normal deviate: 0.3 % are refused for a while.
	expect(settled).toBeGreaterThan(190);
	expect(settledLevelDb([1, 1, 1], 0.05)).toBe(null);
});
