import { expect, test } from 'vitest';
import { sweepLetter } from './sweep-letter.ts';

test('a sweep after the twenty-sixth is named with two letters, and no two are named alike', () => {
	expect([0, 25, 26, 27, 51, 52, 701, 702].map(sweepLetter)).toEqual(['A', 'Z', 'AA', 'AB', 'AZ', 'BA', 'ZZ', 'AAA']);
	expect(new Set(Array.from({ length: 1000 }, (_, place) => sweepLetter(place))).size).toBe(1000);
});
