import { expect, test } from 'vitest';
import { createRandom } from '#core/numeric/random.ts';
import { averagedCycles, cyclePlaces } from './averaged-cycle.ts';

/** Closed form of the wave at a place of the picture: a tone with 10 % of second harmonic in step with it. */
const wave = (turns: number): number => Math.sin(2 * Math.PI * turns) + 0.1 * Math.cos(4 * Math.PI * turns);

function sound(toneHz: number, rateHz: number, startTurns: number, noise: number, seed: number): Float32Array {
	const { gaussian } = createRandom(seed);
	return Float32Array.from({ length: rateHz / 10 }, (_, index) => {
		return 0.3 * wave((index * toneHz) / rateHz + startTurns) + noise * gaussian();
	});
}

test('the picture stands still wherever the samples begin, and hum and hiss average out', () => {
	for (const [toneHz, rateHz] of [
		[400, 48_000],
		[403.7, 44_100],
		[1000, 48_000],
		[3000, 48_000],
	] as const) {
		for (const startTurns of [0, 0.31, 0.77]) {
			const picture = averagedCycles(sound(toneHz, rateHz, startTurns, 0.03, 5), rateHz, toneHz);
			const worst = Math.max(
				...picture.map((value, place) => Math.abs(value - 0.3 * wave((2 * (place + 0.5)) / cyclePlaces))),
			);
			// Noise of 0.03 over some forty samples a place, half the width of a place on the steepest flank, 0.018, and where a cycle has fewer samples than places the straight line between.
			expect(worst, `${toneHz} c from ${startTurns}`).toBeLessThan(toneHz === 3000 ? 0.06 : 0.03);
		}
	}
});
