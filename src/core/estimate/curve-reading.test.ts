import { expect, test } from 'vitest';
import { evenlySpaced } from '../../../test/random-strip.ts';
import { readCurve } from './curve-reading.ts';
import { levelFunction } from './response-model.ts';
import { stripModel } from './strip-model.ts';

const ifHz = 455e3;

/** Two equal cans of Q 80 aligned on the IF, coupling as a share of the critical one. */
function alignedStrip(share: number): (frequencyHz: number) => number {
	const level = levelFunction(stripModel(), 0);
	const out = new Float64Array(12);
	const halves = [80, 80, 80, 80].map((q) => Math.log(0.5 / q));
	const parameters = [0, 0, 0, 0, ...halves, Math.log(share / 80), Math.log(share / 80), 0];
	return (frequencyHz) => {
		level(parameters, frequencyHz / ifHz, out);
		return out[0] as number;
	};
}

const pointsOf = (level: (frequencyHz: number) => number, count: number, reachHz: number) =>
	evenlySpaced(count, reachHz).map((frequencyHz) => ({
		frequencyHz,
		levelDb: level(frequencyHz),
		uncertaintyDb: null,
	}));

// Universal selectivity of critical pairs of equal Q, |A| = 1 / sqrt(1 + x^4 / 4), x = 2 Q df / f0: from memory, proved on a circuit model.
test('two critical cans have the width of the universal curve, shrunk for two stages', () => {
	const reading = readCurve(pointsOf(alignedStrip(1), 61, 30e3), 0.01, ifHz);
	const width3 = reading.bandwidths.find(({ belowPeakDb }) => belowPeakDb === 3);
	const width6 = reading.bandwidths.find(({ belowPeakDb }) => belowPeakDb === 6);
	// One pair falls by 1.5 dB and 3 dB where the two together fall by 3 and 6.
	const x = (fallDb: number) => (4 * (10 ** (fallDb / 10) - 1)) ** 0.25;
	// The formula is of a narrow band: the exact circuit's top stands 0.05 dB higher, half a kilocycle below the IF.
	expect(Math.abs((width3?.widthHz.value ?? 0) / ((x(1.5) * ifHz) / 80) - 1)).toBeLessThan(0.025);
	expect(Math.abs((width6?.widthHz.value ?? 0) / ((x(3) * ifHz) / 80) - 1)).toBeLessThan(0.015);
	expect(Math.abs(reading.peakHz.value - ifHz)).toBeLessThan(600);
	expect(Math.abs((width6?.centreHz.value ?? 0) - ifHz)).toBeLessThan(60);
});

// Over-coupled pair: peaks at f0 +- f0 sqrt(k^2 - 1 / Q^2) / 2, 9.851 kc apart at k Q = 2, Q 80, 455 kc (from memory; the exact circuit gives 450.125 and 459.976 kc).
test('two over-coupled cans show two humps where the formula has them', () => {
	const reading = readCurve(pointsOf(alignedStrip(2), 61, 30e3), 0.01, ifHz);
	expect(reading.humpsHz).toHaveLength(2);
	const [low = 0, high = 0] = reading.humpsHz;
	expect(Math.abs(low - 450.125e3)).toBeLessThan(300);
	expect(Math.abs(high - 459.976e3)).toBeLessThan(300);
});

// A single circuit of Q 80 falls by 0.2 dB at 0.6 kc off: a meter that is read to 0.2 dB knows the peak to about half a kilocycle.
test('a flat top is not known better than the meter allows', () => {
	const points = pointsOf(alignedStrip(1), 31, 15e3);
	const { peakHz } = readCurve(points, 0.2, ifHz);
	expect(peakHz.uncertainty).toBeGreaterThan(250);
	expect(peakHz.uncertainty).toBeLessThan(1200);
});

test('a level exactly as far down at the IF, a slope and an asymmetry are nought on an aligned strip without feedback', () => {
	const reading = readCurve(pointsOf(alignedStrip(0.8), 61, 30e3), 0.05, ifHz);
	expect(reading.atIfBelowPeakDb?.value).toBeLessThan(0.1);
	expect(Math.abs(reading.slopeDbPerKHzAtIf?.value ?? 9)).toBeLessThan(0.1);
	// The exact circuit leans by a few tenths: its skirts are geometric, not arithmetic.
	expect(Math.abs(reading.asymmetryDb5kHz?.value ?? 9)).toBeLessThan(0.5);
	expect(reading.adjacent.map(({ offsetHz }) => offsetHz)).toEqual([-10e3, -9e3, 9e3, 10e3]);
});

test('what the sweep does not reach is left out', () => {
	const reading = readCurve(pointsOf(alignedStrip(1), 11, 4e3), 0.1, ifHz);
	expect(reading.bandwidths.map(({ belowPeakDb }) => belowPeakDb)).not.toContain(20);
	expect(reading.asymmetryDb5kHz).toBeNull();
});
