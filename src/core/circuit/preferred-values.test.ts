import { expect, test } from 'vitest';
import { nearestPreferred, partChoices, seriesValues } from './preferred-values.ts';

// [iec-60063], seen in several renderings: the series as printed.
test('E6, E12 and E24 are the printed tables', () => {
	expect(seriesValues('E6', 10, 99)).toEqual([10, 15, 22, 33, 47, 68]);
	expect(seriesValues('E12', 10, 99)).toEqual([10, 12, 15, 18, 22, 27, 33, 39, 47, 56, 68, 82]);
	expect(seriesValues('E24', 10, 99)).toEqual([
		10, 11, 12, 13, 15, 16, 18, 20, 22, 24, 27, 30, 33, 36, 39, 43, 47, 51, 56, 62, 68, 75, 82, 91,
	]);
	expect(seriesValues('E96', 100, 999)).toHaveLength(96);
	expect(seriesValues('E48', 100, 999)).toHaveLength(48);
});

// Published look-ups [e-series-lookup], seen: nearest E24 to 319 is 330; E96 at 184 and above begins with 187;
// 16,834.2 ohms is 16.9 k in E96; around 5,000 E24 has 4,700, 5,100 and 5,600.
test('published look-ups in the series come out', () => {
	expect(nearestPreferred('E24', 319)).toBe(330);
	expect(seriesValues('E96', 184, 999)[0]).toBe(187);
	expect(nearestPreferred('E96', 16834.2)).toBe(16900);
	expect(seriesValues('E24', 4700, 5600)).toEqual([4700, 5100, 5600]);
	expect(nearestPreferred('E12', 110e-12)).toBe(120e-12);
});

// Closed form: parallel capacitors add, series ones add as reciprocals; the best pair is found by trying them all.
test('the best pair of capacitors from a drawer is the best of all pairs', () => {
	const drawer = [47e-12, 68e-12, 100e-12, 220e-12, 470e-12];
	const wanted = 373.34e-12;
	let best = Number.POSITIVE_INFINITY;
	for (const a of drawer)
		for (const b of drawer) best = Math.min(best, Math.abs(a + b - wanted), Math.abs((a * b) / (a + b) - wanted));
	const [first] = partChoices(wanted, drawer, 'parallel', 3);
	expect(Math.abs((first?.value ?? 0) - wanted)).toBeCloseTo(best, 18);
	expect(partChoices(235e-12, [470e-12], 'parallel', 1)[0]).toMatchObject({ joint: 'series', value: 235e-12 });
	expect(partChoices(9400, [4700], 'series', 1)[0]).toMatchObject({ joint: 'series', value: 9400 });
});
