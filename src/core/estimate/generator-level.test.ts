import { expect, test } from 'vitest';
import { depthFromEnvelope, depthFromSidebands, leakage } from './generator-level.ts';
import { warmUp } from './warm-up.ts';

// Crest 5.9 and trough 1.2 are a modulation of 0.66, [frenzel] ex. 3.1.
test('modulation depth comes from crest and trough, and from the sidebands', () => {
	const sure = (value: number) => ({ value, uncertainty: 0 });
	expect(depthFromEnvelope(sure(5.9), sure(1.2)).value).toBeCloseTo(0.66, 2);
	expect(depthFromEnvelope(sure(1), sure(1)).value).toBe(0);
	// A carrier of 1 modulated by 0.3 has sidebands of 0.15 each: 16.48 dB below.
	expect(depthFromSidebands(sure(-20 * Math.log10(0.15))).value).toBeCloseTo(0.3, 9);
	// Both read to a tenth of 8: by small differences of the formula.
	const read = depthFromEnvelope({ value: 8, uncertainty: 0.1 }, { value: 4, uncertainty: 0.1 });
	const moved = (crest: number, trough: number) => (crest - trough) / (crest + trough) - 1 / 3;
	expect(read.uncertainty).toBeCloseTo(Math.hypot(moved(8.1, 4), moved(8, 4.1)), 3);
	expect(depthFromSidebands({ value: 16, uncertainty: 0.5 }).uncertainty).toBeCloseTo(
		2 * (10 ** (-15.75 / 20) - 10 ** (-16.25 / 20)),
		3,
	);
});

test('leakage is told in volts, and the level from which it does no harm', () => {
	const found = leakage(100e-6, { value: -20, uncertainty: 0.2 }, { value: -48, uncertainty: 0.2 });
	// 28 dB below 100 uV: 3.98 uV.
	expect(found.leakV.value).toBeCloseTo(3.981e-6, 9);
	// 0.2 and 0.2 dB, and what the leak does to the known reading: 4 % at most, 2.3 % as a uniform chance; together 4 % of the leak.
	expect((found.leakV.uncertainty as number) / found.leakV.value).toBeCloseTo(0.0399, 3);
	// Worst of both phases at that level: 20 log10(1 - leak / signal) = -1 dB.
	expect(20 * Math.log10(1 - found.leakV.value / found.leastUsefulV)).toBeCloseTo(-1, 9);
});

test('a generator that warms up exponentially is ready when its window drifts by less than the limit', () => {
	// 20 kc to go with a time constant of 12 minutes, read each minute.
	const readings = Array.from({ length: 91 }, (_, minute) => ({
		atS: 60 * minute,
		frequencyHz: 1e6 - 20e3 * Math.exp(-minute / 12),
	}));
	const { readyAtS } = warmUp(readings, 100, 600);
	// From end to end ten minutes move by 20 kc (e^(10/12) - 1) e^(-t/12), which is 100 c at t = 12 ln(260.2) = 66.7 min; the straight line falls a little short of it.
	expect((readyAtS as number) / 60).toBeGreaterThan(64);
	expect((readyAtS as number) / 60).toBeLessThan(69);
	expect(warmUp(readings.slice(0, 30), 100, 600).readyAtS).toBeNull();
	expect(warmUp([], 100, 600)).toEqual({ drifts: [], readyAtS: null });
});

test('readings further apart than the window tell the drift as it is last, and by the line through three of them', () => {
	// 3 kc to go with a time constant of 400 seconds.
	const readings = [1, 4, 8, 13, 19, 26, 34, 42].map((minute) => ({
		atS: 60 * minute,
		frequencyHz: 1e6 - 3e3 * Math.exp((-60 * minute) / 400),
	}));
	const { drifts, readyAtS } = warmUp(readings, 100, 600);
	expect(drifts.at(-1)?.atS).toBe(42 * 60);
	// From 26 to 42 minutes by 3 kc (e^-3.9 - e^-6.3) = 55 c: 34 c in ten; from 19 to 34 by 155 c: 104 c in ten.
	expect((drifts.at(-1)?.driftHzPerS.value ?? 0) * 600).toBeGreaterThan(30);
	expect((drifts.at(-1)?.driftHzPerS.value ?? 0) * 600).toBeLessThan(40);
	expect(readyAtS).toBe(42 * 60);
	expect(warmUp(readings.slice(0, 7), 100, 600).readyAtS).toBeNull();
});
