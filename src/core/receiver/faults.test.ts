import { expect, test } from 'vitest';
import type { BenchSet } from './bench-set.ts';
import { tuningAtMark, valuesAt } from './bench-set.ts';
import { tm517 } from './designs/tm-517.ts';
import { factoryTurns } from './factory.ts';
import { type Fault, namedFaults } from './faults.ts';
import { ifCurve } from './if-curve.ts';
import { SteadyState } from './operating-point.ts';
import { receivedHz, sensitivityV } from './sensitivity.ts';
import { SetStream } from './set-stream.ts';
import { standardTone } from './signal.ts';
import { oscillatorHz } from './values.ts';

const sound: BenchSet = { design: tm517, faults: [], turns: factoryTurns(tm517), pointerSlipM: 0 };
const sick = (name: string): BenchSet => ({ ...sound, faults: [namedFaults[name] as Fault] });
const marks = tm517.testHz as readonly [number, number, number];

/** Decibels more signal than the sound set needs, low to high; endless where 2 V do not serve. */
const lossesDb = (set: BenchSet): readonly number[] =>
	marks.map((mark) => {
		const needed = sensitivityV(set, mark);
		return needed === null ? Number.POSITIVE_INFINITY : 20 * Math.log10(needed / (sensitivityV(sound, mark) as number));
	});
const spread = (values: readonly number[]): number => Math.max(...values) - Math.min(...values);
const dialShiftsHz = (set: BenchSet): readonly number[] =>
	marks.map((mark) => receivedHz(set, mark) - receivedHz(sound, mark));

// Strip, tubes and audio act after the converter: what they lose is the same at every mark, whatever the antenna circuits do.
test.each([
	'mica-shifted',
	'mica-low',
	'mica-high',
	'mica-open',
	'trimmer-shorted',
	'winding-damped',
	'weak-converter',
	'weak-if-tube',
	'weak-audio',
	'low-b-plus',
])('%s loses alike over the band and leaves the dial', (name) => {
	const losses = lossesDb(sick(name));
	expect(Math.min(...losses)).toBeGreaterThan(3);
	expect(spread(losses)).toBeLessThan(0.5);
	for (const shift of dialShiftsHz(sick(name))) expect(Math.abs(shift)).toBeLessThan(1500);
});

// Closed form: f goes with 1 / sqrt(L), and with C across the gang as -f dC / 2C; a padder in series counts less the more open the gang.
test('oscillator faults move the dial by their own laws', () => {
	const oscillator = (set: BenchSet, mark: number) => oscillatorHz(valuesAt(set, tuningAtMark(set, mark)));
	for (const mark of marks)
		expect(oscillator(sick('oscillator-coil-off'), mark) / oscillator(sound, mark)).toBeCloseTo(1 / Math.sqrt(1.03), 9);
	const [low, , high] = dialShiftsHz(sick('oscillator-strays')) as [number, number, number];
	expect(high / low).toBeGreaterThan(5);
	expect(high).toBeLessThan(0);
	const [padderLow, , padderHigh] = dialShiftsHz(sick('padder-low')) as [number, number, number];
	expect(padderLow).toBeGreaterThan(padderHigh);
	expect(padderHigh).toBeGreaterThan(0);
	for (const shift of dialShiftsHz(sick('padder-high'))) expect(shift).toBeLessThan(0);
});

test('capacitance across the antenna circuit counts the more, the more the gang is open', () => {
	const [low, middle, high] = lossesDb(sick('antenna-strays')) as [number, number, number];
	expect(low).toBeLessThan(middle);
	expect(middle).toBeLessThan(high);
});

test('an open antenna winding leaves the end capacitance, which passes the more the higher', () => {
	const [low, middle, high] = lossesDb(sick('antenna-winding-open')) as [number, number, number];
	expect(low).toBeGreaterThan(middle);
	expect(middle).toBeGreaterThan(high);
	expect(high).toBeGreaterThan(6);
});

// Closed form: f = 1 / (2 pi sqrt(L C)) of the trap as it is now lies near the low mark.
test('a wave trap tuned into the band makes one place deaf', () => {
	const { trap } = valuesAt(sick('wave-trap-off'), 0.5);
	const trapHz = 1 / (2 * Math.PI * Math.sqrt(trap.henry * trap.farad));
	expect(Math.abs(trapHz - marks[0])).toBeLessThan(15e3);
	const [low, middle, high] = lossesDb(sick('wave-trap-off')) as [number, number, number];
	expect(low).toBeGreaterThan(15);
	expect(Math.abs(middle)).toBeLessThan(1);
	expect(Math.abs(high)).toBeLessThan(1);
});

test('an oscillator that stops is silent below its place and sound above', () => {
	const [low, middle, high] = lossesDb(sick('oscillator-stops')) as [number, number, number];
	expect(low).toBe(Number.POSITIVE_INFINITY);
	expect(Math.abs(middle)).toBeLessThan(0.01);
	expect(Math.abs(high)).toBeLessThan(0.01);
});

// Coupled pair in closed form: transfer goes with k / ((1 + j x1)(1 + j x2) + k^2 Q1 Q2), x = 2 Q (f - f0) / f0, the plate loading the first circuit; without the feedback of the IF tube.
test('coils four times as near widen the curve as a coupled pair does', () => {
	const design = { ...tm517, tubes: { ...tm517.tubes, feedbackF: 0 } };
	const sickCurve = ifCurve({ ...sick('coils-too-near'), design });
	const soundCurve = ifCurve({ ...sound, design });
	const { windings, ifHz, tubes } = tm517;
	const coilOhm = windings[0].q * 2 * Math.PI * ifHz * windings[0].henry;
	const firstQ = windings[0].q / (1 + coilOhm / tubes.converterPlateOhm);
	const secondQ = windings[1].q;
	const pairDb = (coupling: number, offHz: number): number => {
		const one = (2 * firstQ * offHz) / ifHz;
		const other = (2 * secondQ * offHz) / ifHz;
		const real = 1 - one * other + coupling * coupling * firstQ * secondQ;
		return -20 * Math.log10(Math.hypot(real, one + other));
	};
	const [k] = tm517.couplings;
	for (const offHz of [-10e3, -5e3, 5e3, 10e3]) {
		const byCurve = sickCurve.levelDb(ifHz + offHz) - soundCurve.levelDb(ifHz + offHz);
		const atMiddle = sickCurve.levelDb(ifHz) - soundCurve.levelDb(ifHz);
		const byPair = pairDb(4 * k, offHz) - pairDb(k, offHz) - pairDb(4 * k, 0) + pairDb(k, 0);
		expect(Math.abs(byCurve - atMiddle - byPair)).toBeLessThan(0.3);
	}
	expect(sickCurve.width6Hz).toBeGreaterThan(2 * soundCurve.width6Hz);
});

test('feedback makes the curve narrower, damping makes it no narrower', () => {
	expect(ifCurve(sick('feedback')).width6Hz).toBeLessThan(ifCurve(sound).width6Hz - 500);
	expect(ifCurve(sick('winding-damped')).width6Hz).toBeGreaterThan(ifCurve(sound).width6Hz);
});

// Divider of the AVC line: what is left is leak / (leak + filter).
test('a leaking AVC line gets its divider\u2019s share of the detector\u2019s voltage, and weak signals lose nothing', () => {
	const values = valuesAt(sick('avc-leak'), tuningAtMark(sound, 1e6));
	const { avcV, detectorV } = new SteadyState(values).operatingPoint({
		frequencyHz: 1e6,
		levelV: 0.01,
		...standardTone,
		into: 'antenna',
	});
	expect(avcV / detectorV).toBeCloseTo(470e3 / (470e3 + 3.3e6), 6);
	for (const loss of lossesDb(sick('avc-leak'))) expect(loss).toBeLessThan(0.1);
});

const rateHz = 48e3;
/** Sound of a set after it has settled, seeded; the carrier without tone at the middle mark. */
function heard(name: string | null, levelV: number, seconds: number): Float64Array {
	const set = name === null ? sound : sick(name);
	const frequencyHz = receivedHz(set, 1e6);
	const values = valuesAt(set, tuningAtMark(set, 1e6));
	const stream = new SetStream(values, [{ frequencyHz, levelV, toneHz: 400, depth: 0, into: 'antenna' }], rateHz, 11);
	stream.fill(new Float64Array(rateHz / 2));
	const samples = new Float64Array(seconds * rateHz);
	stream.fill(samples);
	return samples;
}
const rmsV = (samples: Float64Array): number =>
	Math.sqrt(samples.reduce((sum, one) => sum + one * one, 0) / samples.length);

// Thermal noise: its power goes with the equivalent resistance, so its level with the root of it.
test('a converter twenty times as noisy hisses 13 dB louder on a carrier', () => {
	const risenDb = 20 * Math.log10(rmsV(heard('noisy-converter', 1e-3, 1)) / rmsV(heard(null, 1e-3, 1)));
	expect(Math.abs(risenDb - 10 * Math.log10(20))).toBeLessThan(0.7);
});

test('hum has the level it is given; a putt comes as often as it is given', () => {
	const hum = heard('hum', 0, 1);
	expect(Math.abs(rmsV(hum) - 0.15)).toBeLessThan(0.01);
	const putts = heard('motorboating', 0, 3);
	const block = rateHz / 100;
	const strong = Array.from({ length: putts.length / block }, (_, at) => {
		const piece = putts.subarray(at * block, (at + 1) * block);
		return piece.reduce((sum, volts) => sum + volts, 0) / block > 0.4;
	});
	const beats = strong.filter((is, at) => is && !strong[at - 1]).length;
	expect(Math.abs(beats - 12)).toBeLessThanOrEqual(1);
});

test('creeping silver is heard without a signal and far louder than hiss with a carrier', () => {
	expect(rmsV(heard('silver-mica', 0, 1))).toBeGreaterThan(5 * rmsV(heard(null, 0, 1)));
	expect(rmsV(heard('silver-mica', 1e-3, 1))).toBeGreaterThan(3 * rmsV(heard(null, 1e-3, 1)));
});
