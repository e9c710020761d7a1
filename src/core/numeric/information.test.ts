import { expect, test } from 'vitest';
import { entropyBits, mutualInformationBits } from './information.ts';

// [shannon-1948]: a fair coin has one bit; a binary channel that errs in a share p carries 1 - H(p), and H(0.11) is very nearly one half.
test('entropy and information are those of Shannon\u2019s binary channel', () => {
	expect(entropyBits([0.5, 0.5])).toBe(1);
	expect(entropyBits([1, 0])).toBeCloseTo(0, 12);
	expect(entropyBits([0.11, 0.89])).toBeCloseTo(0.5, 3);
	const channel = [
		[0.89, 0.11],
		[0.11, 0.89],
	];
	expect(mutualInformationBits([0.5, 0.5], channel)).toBeCloseTo(1 - 0.5, 3);
	expect(mutualInformationBits([1, 0], channel)).toBeCloseTo(0, 12);
});
