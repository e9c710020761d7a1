import { expect, test } from 'vitest';
import { createRandom } from './random.ts';

// Closed form: a uniform deviate has mean 1/2 and variance 1/12; a normal one has kurtosis 3. Limits are five standard errors.
test('seeded chance has the moments of its laws', () => {
	const { uniform, gaussian } = createRandom(20);
	const count = 100_000;
	const drawn = Array.from({ length: count }, uniform);
	const mean = drawn.reduce((sum, value) => sum + value, 0) / count;
	expect(Math.abs(mean - 0.5)).toBeLessThan(5 / Math.sqrt(12 * count));
	const normal = Array.from({ length: count }, gaussian);
	const moment = (power: number) => normal.reduce((sum, value) => sum + value ** power, 0) / count;
	expect(Math.abs(moment(1))).toBeLessThan(5 / Math.sqrt(count));
	expect(Math.abs(moment(2) - 1)).toBeLessThan(5 * Math.sqrt(2 / count));
	expect(Math.abs(moment(4) - 3)).toBeLessThan(5 * Math.sqrt(96 / count));
});
