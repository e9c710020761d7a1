import { expect, test } from 'vitest';
import { avcLaw } from './avc-law.ts';
import { byLaw, byTwoSweeps } from './reading-scale.ts';

// AVC that leaves half of every decibel above -20 dB.
const readingOf = (inputDb: number): number => (inputDb > -20 ? -20 + (inputDb + 20) / 2 : inputDb);
const inputOf = (readingDb: number): number => (readingDb > -20 ? -20 + 2 * (readingDb + 20) : readingDb);

test('a level of the curve is told as the meter shows it, with how far the meter moves for a decibel', () => {
	const steps = Array.from({ length: 21 }, (_, step) => 2 * step - 40);
	const law = avcLaw(steps.map((inputDb) => ({ inputDb, outputDb: readingOf(inputDb), uncertaintyDb: 0.01 })));
	if (!law) throw new Error('no law');
	for (const scale of [byLaw(law, 0.1), byTwoSweeps({ inputDb: inputOf }, 0)]) {
		for (const [inputDb, slope] of [
			[-33, 1],
			[-7, 0.5],
		] as const) {
			const shown = scale.meter(inputDb);
			expect(shown?.readingDb).toBeCloseTo(readingOf(inputDb), 2);
			expect(shown?.slopeDbPerDb).toBeCloseTo(slope, 2);
		}
		expect(scale.curve({ frequencyHz: 455e3, levelDb: -10, uncertaintyDb: null })?.levelDb).toBeCloseTo(0, 2);
	}
	// A tenth of a decibel at the meter is two tenths of the curve where half of each is left.
	const turned = byLaw(law, 0.1).curve({ frequencyHz: 455e3, levelDb: -13, uncertaintyDb: 0.02 });
	expect(turned?.uncertaintyDb).toBeGreaterThan(0.19);
	expect(turned?.uncertaintyDb).toBeLessThan(0.25);
	expect(byLaw(law, 0.1).curve({ frequencyHz: 455e3, levelDb: -50, uncertaintyDb: null })).toBeNull();
});
