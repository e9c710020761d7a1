import { expect, test } from 'vitest';
import { digitUncertainty, lastDigit, typedUncertainty } from './last-digit.ts';

test('the last digit is worth what it was written as', () => {
	expect(['2.40', '12', '3e-6', '1.20E3', '-7.5'].map(lastDigit)).toEqual([0.01, 1, 1e-6, 10, 0.1]);
});

test('a value is as sure as its digits in whatever unit it was written', () => {
	const half = (unit: number) => unit / (2 * Math.sqrt(3));
	expect(digitUncertainty('2.40', -2.4e-3)).toBeCloseTo(half(1e-5), 12);
	expect(typedUncertainty('1,010.5 kc', 1_010_500)).toBeCloseTo(half(100), 6);
	expect(digitUncertainty('0.00', 0)).toBe(0);
});
