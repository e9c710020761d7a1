import { expect, test } from 'vitest';
import { toneFrame } from '#core/signal/frame.ts';
import { clickHz, clicksPerS, pitchHz } from './ear.ts';

const rateHz = 48_000;

// A tone of 0.1 and clicks as loud as it, 25 ms each with a cosine's rise and fall, as fast as they come at the best.
test('clicks as loud as the tone leave its reading alone', () => {
	for (const toneHz of [400, 1000]) {
		const clean: number[] = [];
		const clicked: number[] = [];
		for (let frame = 0; frame < 20; frame++) {
			const samples = (loudness: number) =>
				Float32Array.from({ length: rateHz / 10 }, (_, index) => {
					const atS = frame / 10 + index / rateHz;
					const sinceS = atS % (1 / clicksPerS(0));
					const shape = sinceS < 0.025 ? 0.5 - 0.5 * Math.cos((2 * Math.PI * sinceS) / 0.025) : 0;
					return (
						0.1 * Math.sin(2 * Math.PI * toneHz * atS) +
						loudness * shape * Math.sin(2 * Math.PI * clickHz(toneHz) * sinceS)
					);
				});
			clean.push(toneFrame(samples(0), rateHz, toneHz).levelDbfs?.value ?? 0);
			clicked.push(toneFrame(samples(0.1), rateHz, toneHz).levelDbfs?.value ?? 0);
		}
		for (const [frame, levelDb] of clean.entries()) {
			expect(Math.abs((clicked[frame] as number) - levelDb), `${toneHz} c`).toBeLessThan(0.01);
		}
	}
});

test('better is higher and faster', () => {
	for (const offDb of [0, 1, 3, 10, 40]) {
		expect(pitchHz(offDb)).toBeGreaterThanOrEqual(pitchHz(offDb + 1));
		expect(clicksPerS(offDb)).toBeGreaterThanOrEqual(clicksPerS(offDb + 1));
	}
});
