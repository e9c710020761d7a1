import { expect, test } from 'vitest';
import { dialPattern } from './dial-pattern.ts';

const marksHz = [600e3, 800e3, 1000e3, 1200e3, 1400e3];
/** Kilocycles crowd toward the high end of a straight-line-capacitance scale: hertz a metre grow with the cube of the frequency. */
const crowding = (dialHz: number): number => 1e7 * (dialHz / 1e6) ** 3;
const pattern = (errorHz: (dialHz: number) => number): string | null =>
	dialPattern(
		{
			errors: marksHz.map((dialHz) => ({
				dialHz,
				errorHz: errorHz(dialHz),
				uncertaintyHz: 500,
				readings: 1,
				scatterHz: null,
			})),
		},
		crowding,
	);

// The trade's own rule: an IF off by so many kilocycles moves the whole dial by as many; a slipped pointer by the same distance.
test('constant kilocycles, constant distance, one end and one sector are told apart', () => {
	expect(pattern(() => 1e3)).toBe('true');
	expect(pattern(() => -10e3)).toBe('kilocycles');
	expect(pattern((dialHz) => 1.5e-3 * crowding(dialHz))).toBe('distance');
	expect(pattern((dialHz) => (dialHz > 1.1e6 ? (dialHz - 1.1e6) / 12 : 0))).toBe('high');
	expect(pattern((dialHz) => (dialHz < 900e3 ? (900e3 - dialHz) / 12 : 0))).toBe('low');
	expect(pattern((dialHz) => (dialHz === 1e6 ? 15e3 : 0))).toBe('middle');
});

test('where the scale is even, kilocycles and distance are left open', () => {
	const errors = marksHz.map((dialHz) => ({
		dialHz,
		errorHz: -10e3,
		uncertaintyHz: 500,
		readings: 1,
		scatterHz: null,
	}));
	expect(dialPattern({ errors }, () => 1e7)).toBeNull();
});
