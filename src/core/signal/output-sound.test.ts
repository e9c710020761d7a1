import { expect, test } from 'vitest';
import { outputSound } from './output-sound.ts';

const rateHz = 48e3;
const wave = (at: (turns: number) => number): Float64Array =>
	Float64Array.from({ length: rateHz / 2 }, (_, k) => at((2 * Math.PI * 400 * k) / rateHz));

test('a tone with a third of 5 per cent reads its rms, and 5 per cent', () => {
	const heard = outputSound(
		wave((turns) => 2 * Math.sin(turns) + 0.1 * Math.sin(3 * turns)),
		rateHz,
		400,
	);
	// Rms of two sines: the root of half the sum of their squares.
	expect(heard.whole).toBeCloseTo(Math.sqrt((4 + 0.01) / 2), 6);
	expect(heard.distortionShare).toBeCloseTo(0.05, 5);
});

test('without a tone there is no distortion to read, and a direct voltage is no sound', () => {
	const quiet = outputSound(
		wave(() => 0.3),
		rateHz,
		400,
	);
	expect(quiet.whole).toBeCloseTo(0, 9);
	expect(quiet.distortionShare).toBeNull();
});
