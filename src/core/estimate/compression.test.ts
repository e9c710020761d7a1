import { expect, test } from 'vitest';
import { createRandom } from '#core/numeric/random.ts';
import { evenlySpaced, randomStrip, trueLevelDb } from '../../../test/random-strip.ts';
import { type Compression, compression } from './compression.ts';
import { readCurve } from './curve-reading.ts';
import type { CurvePoint } from './level-noise.ts';

const ifHz = 455e3;

/** AVC that takes a decibels for each unit of volts above its delay: the reading of an input, by bisection. */
function readingDb(inputDb: number, shareDb: number, delay: number): number {
	let low = inputDb - 80;
	let high = inputDb;
	for (let step = 0; step < 60; step++) {
		const middle = (low + high) / 2;
		if (middle + shareDb * Math.max(0, 10 ** (middle / 20) - delay) > inputDb) high = middle;
		else low = middle;
	}
	return low;
}

const corrected = ({ inputDb }: Compression, points: readonly CurvePoint[]) =>
	points.map((point) => ({ ...point, levelDb: inputDb(point.levelDb) }));

// A law of delayed AVC, level compressed as the carrier is; the law is made here and solved by bisection, the program knows nothing of it.
test('two sweeps 6 dB apart take AVC out: the width is that of the strip within 1 per cent', () => {
	for (const [shareDb, delay, seed] of [
		[2, 0.3, 1],
		[6, 0.2, 2],
		[10, 0, 3],
	] as const) {
		const level = trueLevelDb(randomStrip(createRandom(seed)));
		const frequenciesHz = evenlySpaced(61, 20e3);
		const topDb = Math.max(...frequenciesHz.map(level));
		const sweep = (byDb: number) =>
			frequenciesHz.map((frequencyHz) => ({
				frequencyHz,
				levelDb: readingDb(level(frequencyHz) - topDb + 6 + byDb, shareDb, delay),
				uncertaintyDb: null,
			}));
		const found = compression(sweep(0), sweep(-6), 0.02);
		expect(found).not.toBeNull();
		if (!found) continue;
		expect(found.of6Db.value).toBeLessThan(5.7);
		const width = (points: Parameters<typeof readCurve>[0]) =>
			readCurve(points, 0.02, ifHz).bandwidths.find(({ belowPeakDb }) => belowPeakDb === 6)?.widthHz.value ??
			Number.NaN;
		const truth = width(
			frequenciesHz.map((frequencyHz) => ({ frequencyHz, levelDb: level(frequencyHz), uncertaintyDb: null })),
		);
		expect(Math.abs(width(corrected(found, sweep(0))) / truth - 1)).toBeLessThan(0.01);
		expect(width(sweep(0)) / truth).toBeGreaterThan(1.02);
	}
});

test('a set without AVC reads the whole step and is left as it is', () => {
	const level = trueLevelDb(randomStrip(createRandom(4)));
	const points = evenlySpaced(41, 20e3).map((frequencyHz) => ({
		frequencyHz,
		levelDb: level(frequencyHz),
		uncertaintyDb: null,
	}));
	const weaker = points.map((point) => ({ ...point, levelDb: point.levelDb - 6 }));
	const found = compression(points, weaker, 0.05);
	expect(found?.stepDb.value).toBeCloseTo(6, 6);
	for (const { levelDb } of points) expect(found?.inputDb(levelDb)).toBeCloseTo(levelDb, 3);
});
