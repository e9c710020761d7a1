import { expect, test } from 'vitest';
import { createRandom } from '#core/numeric/random.ts';
import { floorLiftDb, levelSigmaDb } from './level-noise.ts';

const noise = { meterDb: 0, generatorHz: 0, floorBelowPeakDb: 50 };
const point = { frequencyHz: 455e3, levelDb: 0, uncertaintyDb: null };

// Mean of ln(r^2) by Rice's law is ln(K) + E1(K), E1(x) = -g - ln(x) - sum (-x)^n / (n n!); the series itself, g Euler's constant.
test("a level near the noise is lifted as Rice's law says", () => {
	for (const aboveDb of [-10, -3, 0, 3, 6, 10]) {
		const power = 10 ** (aboveDb / 10);
		let integral = -0.5772156649 - Math.log(power);
		let term = 1;
		for (let n = 1; n < 80; n++) {
			term *= -power / n;
			integral -= term / n;
		}
		expect(floorLiftDb(noise, 50 - aboveDb)).toBeCloseTo((10 / Math.LN10) * integral, 3);
	}
});

// Scatter of 40,000 drawn levels, known to half a per cent; what is granted is that scatter over the slope 1 - exp(-K).
test('a level near the noise scatters as levels that are drawn with noise do', () => {
	const { gaussian } = createRandom(8);
	for (const aboveDb of [-6, 0, 3, 6, 10, 20]) {
		const power = 10 ** (aboveDb / 10);
		const part = Math.sqrt(0.5 / power);
		const drawn = Array.from(
			{ length: 40_000 },
			() => 20 * Math.log10(Math.hypot(1 + part * gaussian(), part * gaussian())),
		);
		const mean = drawn.reduce((sum, value) => sum + value, 0) / drawn.length;
		const scatterDb = Math.sqrt(drawn.reduce((sum, value) => sum + (value - mean) ** 2, 0) / drawn.length);
		const grantedDb = levelSigmaDb(noise, point, 50 - aboveDb, 0) * (1 - Math.exp(-power));
		expect(Math.abs(grantedDb / scatterDb - 1)).toBeLessThan(0.03);
	}
});
