import { expect, test } from 'vitest';
import { ledHand } from './led-hand.ts';

// The best is that of the engine's own optimiser on the set's true values, from many starts.
test('a hand that does nothing but what the coach says aligns a tampered set to within half a decibel of its best', () => {
	for (const seed of [1, 2, 5]) {
		const { foundBelowBestDb, leftBelowBestDb, isStopped } = ledHand(seed);
		expect(foundBelowBestDb, `seed ${seed}`).toBeGreaterThan(10);
		expect(leftBelowBestDb, `seed ${seed}`).toBeLessThan(0.5);
		// It was told to stop at every adjuster, and never led in circles.
		expect(isStopped, `seed ${seed}`).toBe(true);
	}
});
