import { expect, test } from 'vitest';
import { createRandom } from '#core/numeric/random.ts';
import { coachAdvice, scatterDb } from './coach.ts';

/** Closed form of a tuned circuit turned through its peak, x in half widths: -10 log10(1 + x^2). */
const circuitDb = (x: number) => -10 * Math.log10(1 + x * x);

/** A turn from -1.5 to +1.5 half widths at an even pace, with the scatter of a tone 20 dB over its noise. */
function turn(seed: number, sigmaDb: number): { x: number; levelDb: number }[] {
	const { gaussian, uniform } = createRandom(seed);
	const step = 0.01 + 0.02 * uniform();
	return Array.from({ length: Math.ceil(3 / step) }, (_, index) => {
		const x = -1.5 + index * step;
		return { x, levelDb: circuitDb(x) + sigmaDb * gaussian() };
	});
}

test('the coach speaks after the peak and not before, and soon', () => {
	for (let seed = 0; seed < 300; seed++) {
		const levels: number[] = [];
		let toldAt: number | null = null;
		for (const { x, levelDb } of turn(seed, 0.031)) {
			levels.push(levelDb);
			if (toldAt === null && coachAdvice(levels, 'maximum', 5, 0.031).kind === 'past') toldAt = x;
		}
		expect(toldAt, `seed ${seed}`).not.toBe(null);
		expect(toldAt as number).toBeGreaterThan(0);
		expect(toldAt as number).toBeLessThan(0.55);
	}
});

test('a steady level with its scatter brings no word', () => {
	for (let seed = 0; seed < 100; seed++) {
		const { gaussian } = createRandom(1000 + seed);
		const levels: number[] = [];
		for (let frame = 0; frame < 100; frame++) {
			levels.push(-20 + 0.031 * gaussian());
			expect(coachAdvice(levels, 'maximum', 5, 0.031).kind).not.toBe('past');
		}
	}
});

test('a wave trap is turned for the least', () => {
	const levels = [0, -2, -5, -9, -6];
	expect(coachAdvice(levels.slice(0, 4), 'minimum', 1, 0.05).kind).toBe('best');
	expect(coachAdvice(levels, 'minimum', 1, 0.05)).toEqual({ kind: 'past', offDb: 3, bestDb: -9 });
});

test('scatter is told from a slope', () => {
	const { gaussian } = createRandom(5);
	const sloping = Array.from({ length: 2000 }, (_, index) => 0.05 * index + 0.1 * gaussian());
	// The median of 2,000 sizes is known to about 3 %.
	expect(scatterDb(sloping)).toBeGreaterThan(0.09);
	expect(scatterDb(sloping)).toBeLessThan(0.11);
});
