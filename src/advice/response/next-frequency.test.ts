import { expect, test } from 'vitest';
import type { CurvePoint } from '#core/estimate/level-noise.ts';
import { nextFrequencyHz } from './next-frequency.ts';

const ifHz = 455e3;
const curve = (frequencyHz: number) => ({
	frequencyHz,
	levelDb: -20 * Math.log10(1 + ((frequencyHz - ifHz) / 4e3) ** 2),
	uncertaintyDb: null,
});

function sweep(role: 'base' | 'nudge', before: readonly CurvePoint[] = []): number[] {
	const read: number[] = [];
	for (;;) {
		const points = read.map(curve).sort((one, other) => one.frequencyHz - other.frequencyHz);
		const next = nextFrequencyHz(points, ifHz, role, before);
		if (next === null) return read;
		read.push(next);
	}
}

test('a base sweep begins at the IF, goes coarsely to both skirts, then closes the gaps where the curve is high', () => {
	const read = sweep('base');
	expect(read[0]).toBe(ifHz);
	expect(read).toHaveLength(31);
	expect(new Set(read).size).toBe(31);
	expect(Math.min(...read)).toBeLessThan(ifHz - 20e3);
	const sorted = [...read].sort((one, other) => one - other);
	const gaps = sorted.slice(1).map((hz, place) => ({ hz, widthHz: hz - (sorted[place] as number) }));
	const within = gaps.filter(({ hz }) => Math.abs(hz - ifHz) < 6e3);
	expect(Math.max(...within.map(({ widthHz }) => widthHz))).toBeLessThanOrEqual(2e3);
});

// This curve is 20 dB down 12 kc from its top: 1 + (f / 4 kc)^2 = 10.
test('after a nudge nine points go evenly over the upper 20 dB of the sweep before', () => {
	const before = sweep('base')
		.sort((one, other) => one - other)
		.map(curve);
	const read = sweep('nudge', before);
	expect(read).toHaveLength(9);
	expect(read[0]).toBeCloseTo(ifHz - 12e3, -3);
	expect(read[8]).toBeCloseTo(ifHz + 12e3, -3);
	expect(read[4]).toBe(ifHz);
});

test('an IF of 175 kc is read in proportion, on a grid of 100 c', () => {
	expect(nextFrequencyHz([], 175e3, 'base', [])).toBe(175e3);
	const [point] = [{ frequencyHz: 175e3, levelDb: 0, uncertaintyDb: null }];
	expect(nextFrequencyHz([point], 175e3, 'base', [])).toBe(172.7e3);
});

test('after a setting, one point on either flank is read beside the mark', () => {
	const mark = curve(447e3);
	expect(nextFrequencyHz([mark], ifHz, 'setting', [])).toBe(450e3);
	const both = [mark, curve(450e3)];
	expect(nextFrequencyHz(both, ifHz, 'setting', [])).toBe(460e3);
	expect(nextFrequencyHz([...both, curve(460e3)], ifHz, 'setting', [])).toBeNull();
});
