import { expect, test } from 'vitest';
import { createRandom } from '#core/numeric/random.ts';
import { ifHz, mostFeedback, randomStrip, trueLevelDb } from '../../../test/random-strip.ts';
import { aimedStrip, madeUp } from './aim.ts';

const aim = { kind: 'symmetrical' } as const;
const toneHz = 400;
const asymmetryDb = (parameters: Float64Array): number => {
	const levelDb = trueLevelDb([...parameters]);
	return Math.abs(levelDb(ifHz + 5e3) - levelDb(ifHz - 5e3));
};

// Strips drawn by seeded chance, with feedback; judged by the levels of the model that a circuit simulator has proved.
test('an aim at symmetry is kept to while a strip is brought to it', () => {
	for (const seed of [1, 2, 3, 4, 5, 6]) {
		const random = createRandom(seed);
		const strip = Float64Array.from(randomStrip(random, mostFeedback * random.uniform()));
		const first = aimedStrip(strip, aim, ifHz, toneHz).parameters;
		expect(asymmetryDb(first)).toBeLessThan(0.4);
		// Two circuits set to 300 c, Q and feedback known a little better than before.
		const begun = Float64Array.from(strip);
		for (const circuit of [2, 3]) begun[circuit] = (first[circuit] as number) + (300 * random.gaussian()) / ifHz;
		for (const place of [4, 5, 6, 7]) begun[place] = (begun[place] as number) + 0.02 * random.gaussian();
		begun[10] = (begun[10] as number) * (1 + 0.05 * random.gaussian());
		const next = aimedStrip(begun, aim, ifHz, toneHz).parameters;
		for (const circuit of [0, 1, 2, 3])
			expect(Math.abs((next[circuit] as number) - (first[circuit] as number)) * ifHz).toBeLessThan(500);
	}
});

test('circuits that are still to be set make up for those that were set amiss', () => {
	for (const seed of [7, 8, 9]) {
		const random = createRandom(seed);
		const strip = Float64Array.from(randomStrip(random, mostFeedback * random.uniform()));
		const aimed = aimedStrip(strip, aim, ifHz, toneHz);
		const amiss = Float64Array.from(aimed.parameters);
		for (const circuit of [1, 2, 3]) amiss[circuit] = (amiss[circuit] as number) + 400 / ifHz;
		const better = madeUp(amiss, aimed, [0], ifHz, toneHz);
		for (const circuit of [1, 2, 3]) expect(better[circuit]).toBe(amiss[circuit]);
		expect(asymmetryDb(amiss)).toBeGreaterThan(1.5);
		expect(asymmetryDb(better)).toBeLessThan(0.7);
	}
});
