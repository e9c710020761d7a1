import { expect, test } from 'vitest';
import { nextFrequencyHz } from './next-frequency.ts';

const ifHz = 455e3;
const curve = (frequencyHz: number) => ({
	frequencyHz,
	levelDb: -20 * Math.log10(1 + ((frequencyHz - ifHz) / 4e3) ** 2),
	uncertaintyDb: null,
});

function sweep(role: 'base' | 'nudge'): number[] {
	const read: number[] = [];
	for (;;) {
		const points = read.map(curve).sort((one, other) => one.frequencyHz - other.frequencyHz);
		const next = nextFrequencyHz(points, ifHz, role);
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

test('nine points do after a nudge', () => {
	expect(sweep('nudge')).toHaveLength(9);
});
