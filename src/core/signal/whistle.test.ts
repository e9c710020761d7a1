import { expect, test } from 'vitest';
import { createRandom } from '#core/numeric/random.ts';
import { steadyWhistle } from './whistle.ts';

const rateHz = 24e3;

/** The envelope of a carrier of 1 and one of `share`, so many cycles apart, two seconds long. */
const beat = (share: number, beatHz: number): Float64Array =>
	Float64Array.from({ length: 2 * rateHz }, (_, k) =>
		Math.hypot(
			1 + share * Math.cos((2 * Math.PI * beatHz * k) / rateHz),
			share * Math.sin((2 * Math.PI * beatHz * k) / rateHz),
		),
	);

/** Syllables of 150 ms, each of its own pitch. */
function programme(strength: number): Float64Array {
	const random = createRandom(5);
	const pitches = Array.from({ length: 14 }, () => 200 * 10 ** random.uniform());
	return Float64Array.from({ length: 2 * rateHz }, (_, k) => {
		const atS = k / rateHz;
		return strength * Math.sin(2 * Math.PI * (pitches[Math.floor(atS / 0.15)] as number) * atS);
	});
}

test('the beat of two carriers has the weaker one for its strength', () => {
	for (const share of [0.3, 0.1, 0.01, 0.001]) {
		const heard = steadyWhistle(beat(share, 640.3), rateHz);
		expect(heard?.beatHz.value).toBeCloseTo(640.3, 2);
		// The envelope's fundamental: share (1 - share^2 / 8 - ...), the binomial series of |1 + share e^(jx)|.
		expect(10 ** ((heard?.levelDbfs.value ?? 0) / 20)).toBeCloseTo(share * (1 - share ** 2 / 8), 4);
	}
});

test('a whistle is heard through a programme of five times its strength, and a programme alone is none', () => {
	const speech = programme(0.5);
	const both = beat(0.1, 1234.5).map((one, k) => one + (speech[k] as number));
	const heard = steadyWhistle(both, rateHz);
	expect(Math.abs((heard?.beatHz.value ?? 0) - 1234.5)).toBeLessThan(2);
	expect(steadyWhistle(speech, rateHz)).toBeNull();
	expect(steadyWhistle(new Float64Array(2 * rateHz), rateHz)).toBeNull();
});

test('a whistle that drifts by three cycles a second is heard at its middle', () => {
	const drifting = Float64Array.from({ length: 2 * rateHz }, (_, k) => {
		const atS = k / rateHz;
		return 0.1 * Math.sin(2 * Math.PI * (800 * atS + 1.5 * atS * atS));
	});
	const heard = steadyWhistle(drifting, rateHz);
	expect(Math.abs((heard?.beatHz.value ?? 0) - 803)).toBeLessThan(1);
});
