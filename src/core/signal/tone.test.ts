import { expect, test } from 'vitest';
import { createRandom } from '#core/numeric/random.ts';
import { toneFrame } from './frame.ts';
import { refinedFrequencyHz } from './sine-fit.ts';
import { measureTone } from './tone.ts';

const rate = 48_000;
const make = (count: number, at: (timeS: number) => number) =>
	Float64Array.from({ length: count }, (_, index) => at(index / rate));
const wave =
	(amplitude: number, frequencyHz: number, phase = 0) =>
	(timeS: number) =>
		amplitude * Math.sin(2 * Math.PI * frequencyHz * timeS + phase);

test('a tone of a tenth of full scale reads -20 dB', () => {
	const measured = measureTone(make(rate, wave(0.1, 400.3, 1)), rate, null);
	expect(measured.verdict).toBe('ok');
	expect(measured.levelDbfs?.value).toBeCloseTo(-20, 6);
	expect(measured.toneHz?.value).toBeCloseTo(400.3, 6);
});

// Public help page of a general analysis package, seen: 5 + 3 sin(2 pi 4 t), 1,000 samples at 1 ms, fitted 3.0012, 3.9999, 5.000 with a little noise; without noise the fit returns what went in.
test('the sine fit returns a noiseless sine exactly', () => {
	const samples = Float64Array.from({ length: 1000 }, (_, index) => 5 + 3 * Math.sin(2 * Math.PI * 4 * index * 1e-3));
	expect(refinedFrequencyHz(samples, 1000, 4.2)).toBeCloseTo(4, 7);
});

// Definitions: 1 % of second and third harmonic each is 20 log10(sqrt(2) / 100) = -36.99 dB; SINAD with these alone is 36.99 dB.
test('distortion and SINAD follow their definitions', () => {
	const samples = make(rate, (timeS) => wave(0.5, 400)(timeS) + wave(0.005, 800)(timeS) + wave(0.005, 1200)(timeS));
	const measured = measureTone(samples, rate, 400);
	expect(measured.thdDb?.value).toBeCloseTo(-36.99, 2);
	expect(measured.sinadDb?.value).toBeCloseTo(36.99, 2);
});

test('hum of either mains is told and is not taken for distortion', () => {
	for (const mainsHz of [50, 60]) {
		const measured = measureTone(
			make(rate, (timeS) => wave(0.5, 417)(timeS) + wave(0.05, 2 * mainsHz)(timeS)),
			rate,
			null,
		);
		expect(measured.humDbc?.value).toBeCloseTo(-20, 1);
		expect(measured.thdDb?.value).toBeLessThan(-80);
	}
});

// Closed form: sin x + h cos 2x with small h has top 1 - h... the extremes are 1 - h and -(1 + h) at sin x = +-1.
test('a second harmonic shows as asymmetry of top and bottom', () => {
	const samples = make(rate, (timeS) => wave(0.5, 400)(timeS) + 0.05 * Math.cos(2 * Math.PI * 800 * timeS));
	// top = 0.5 - 0.05, bottom = -(0.5 + 0.05): (top + bottom) / (top - bottom) = -0.1.
	expect(measureTone(samples, rate, 400).asymmetry?.value).toBeCloseTo(-0.1, 3);
});

test('silence and noise alone are no tone, flat tops are clipped', () => {
	expect(measureTone(new Float64Array(rate), rate, null).verdict).toBe('no tone');
	const { gaussian } = createRandom(3);
	expect(
		measureTone(
			make(rate, () => 0.1 * gaussian()),
			rate,
			400,
		).verdict,
	).toBe('no tone');
	expect(
		measureTone(
			make(rate, (timeS) => Math.max(-1, Math.min(1, wave(1.3, 400)(timeS)))),
			rate,
			null,
		).verdict,
	).toBe('clipped');
});

// Cramer-Rao bound, [rife-boorstyn-1974] (memory) and public code (seen): amplitude 1, 4,800 samples, 20 dB:
// sd of amplitude 0.001443 = 0.01253 dB, sd of frequency 0.00796 c.
test('the level of a frame is as certain as the Cramer-Rao bound allows, and says so', () => {
	const { gaussian, uniform } = createRandom(11);
	const errors: number[] = [];
	const stated: number[] = [];
	for (let round = 0; round < 300; round++) {
		const clean = wave(0.5, 400, 2 * Math.PI * uniform());
		const frame = toneFrame(
			make(4800, (timeS) => clean(timeS) + 0.5 * Math.sqrt(0.005) * gaussian()),
			rate,
			400,
		);
		errors.push((frame.levelDbfs?.value ?? 0) - 20 * Math.log10(0.5));
		stated.push(frame.levelDbfs?.uncertainty ?? 0);
	}
	const rms = Math.sqrt(errors.reduce((sum, error) => sum + error * error, 0) / errors.length);
	const mean = stated.reduce((sum, value) => sum + value, 0) / stated.length;
	// 300 rounds know an rms to 4 %: three of these beside the bound and the tenth allowed.
	expect(rms / 0.01253).toBeLessThan(1.1 * 1.12);
	expect(mean / 0.01253).toBeGreaterThan(0.9);
	expect(mean / 0.01253).toBeLessThan(1.1);
});

test('a frame follows a tone that is a few cycles off', () => {
	const frame = toneFrame(make(4800, wave(0.25, 403)), rate, 400);
	expect(frame.levelDbfs?.value).toBeCloseTo(20 * Math.log10(0.25), 2);
	expect(frame.toneHz?.value).toBeCloseTo(403, 1);
});

test('the tone of a frame scatters by as much as it says', () => {
	const { gaussian } = createRandom(11);
	const frames = Array.from({ length: 2000 }, () => {
		const clean = wave(0.1, 400, 2 * Math.PI * Math.abs(gaussian()));
		return toneFrame(
			make(rate / 10, (timeS) => clean(timeS) + 0.05 * gaussian()),
			rate,
			400,
		);
	});
	const off = frames.map(({ toneHz }) => (toneHz?.value ?? Number.NaN) - 400);
	const stated = frames.map(({ toneHz }) => toneHz?.uncertainty ?? Number.NaN);
	const scatterHz = Math.sqrt(off.reduce((sum, one) => sum + one * one, 0) / off.length);
	const statedHz = Math.sqrt(stated.reduce((sum, one) => sum + one * one, 0) / stated.length);
	// 2,000 frames tell a scatter to 1.6 %.
	expect(Math.abs(scatterHz / statedHz - 1)).toBeLessThan(0.05);
});

test('a tone whose harmonics all lie beyond the sampling has no figure of distortion', () => {
	const rateHz = 8000;
	const samples = Float64Array.from(
		{ length: rateHz },
		(_, index) => 0.5 * Math.sin((2 * Math.PI * 2500 * index) / rateHz),
	);
	const measured = measureTone(samples, rateHz, 2500);
	expect(measured.levelDbfs?.value).toBeCloseTo(20 * Math.log10(0.5), 6);
	expect(measured.thdDb).toBeNull();
});

test('a frame that lost ten milliseconds on its way is held: its level is not that of the tone', () => {
	const clean = make(rate / 10, wave(0.1, 400, 0));
	const cut = Float64Array.from(clean, (sample, index) => (index >= 2000 && index < 2480 ? 0 : sample));
	expect(toneFrame(clean, rate, 400).kind).toBe('ok');
	const frame = toneFrame(cut, rate, 400);
	// A tenth of the frame is missing.
	expect(frame.levelDbfs?.value).toBeCloseTo(20 * Math.log10(0.09), 1);
	expect(frame.kind).toBe('held');
	expect(toneFrame(new Float64Array(rate / 10), rate, 400).kind).toBe('no tone');
});
