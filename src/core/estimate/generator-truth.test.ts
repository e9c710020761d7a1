import { expect, test } from 'vitest';
import { generatorTruth } from './generator-truth.ts';

const check = (readsHz: number, trueHz: number, ageS = 0) => ({ readsHz, trueHz, uncertaintyHz: 300, ageS });

test('a generator is believed at its checks and between them in proportion', () => {
	const checks = [check(1400e3, 1386e3), check(600e3, 606e3)];
	expect(generatorTruth(checks, 600e3).value).toBeCloseTo(606e3, 6);
	expect(generatorTruth(checks, 1400e3).value).toBeCloseTo(1386e3, 6);
	// Half way by the logarithm, 1 % high and 1 % low cancel.
	const middle = Math.sqrt(600e3 * 1400e3);
	expect(generatorTruth(checks, middle).value).toBeCloseTo(middle, 3);
	expect(generatorTruth(checks, 550e3).value).toBeCloseTo(550e3 * 1.01, 6);
});

// [eddystone-659]: few service generators are better than 1 %.
test('what was not checked, lies far from a check or is old is worth less', () => {
	expect(generatorTruth([], 1000e3)).toEqual({ value: 1000e3, uncertainty: 10e3 });
	const fresh = generatorTruth([check(1000e3, 1001e3)], 1000e3).uncertainty as number;
	const old = generatorTruth([check(1000e3, 1001e3, 730 * 86_400)], 1000e3).uncertainty as number;
	const far = generatorTruth([check(1000e3, 1001e3)], 1600e3).uncertainty as number;
	expect(fresh).toBe(300);
	expect(old).toBeGreaterThan(2 * fresh);
	expect(far).toBeGreaterThan(5e3);
	expect(far).toBeLessThanOrEqual(Math.hypot(16e3, 300));
});
