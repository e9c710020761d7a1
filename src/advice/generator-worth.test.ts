import { expect, test } from 'vitest';
import type { GeneratorTrial } from '#record/generator-trial.ts';
import { decibelsOf } from '#record/level-unit.ts';
import { generatorWorth } from './generator-worth.ts';

const dated = (minutes: number, read: GeneratorTrial['read']) => ({
	atMs: 60_000 * minutes,
	trial: { kind: 'generator trial' as const, generator: 'old Bakelite', read },
});
const level = (value: number) => ({ value, uncertainty: 0.1 });

test('an attenuator is judged by the sitting it was read in last, its leak against its best-known place', () => {
	const place = (minutes: number, markedDb: number, readDb: number) =>
		dated(minutes, { about: 'attenuator', markedDb, markedIn: 'decibels', readDb: level(readDb) });
	const old = place(0, -40, -90);
	const { table } = generatorWorth([
		place(2000, -20, -28.8),
		old,
		place(2001, -40, -50),
		place(2002, -40, -49.5),
		place(2003, 0, -9.5),
	]);
	expect(table).toMatchObject({ fromDb: 0, markedIn: 'decibels', leakDb: null });
	expect(table?.places.map(({ markedDb, errorDb }) => [markedDb, Number(errorDb.value.toFixed(3))])).toEqual([
		[-40, 0],
		[-20, 0.7],
		[0, 0],
	]);
	expect(generatorWorth([old]).table?.places).toEqual([]);
	expect(generatorWorth([]).table).toBe(null);
});

test('the leak is told on the table of the attenuator, where that is marked in volts', () => {
	const mark = (minutes: number, volts: number, readDb: number) =>
		dated(minutes, { about: 'attenuator', markedDb: decibelsOf(volts), markedIn: 'volts', readDb: level(readDb) });
	// 1 mV gives 2 dB less than ten times what 100 uV gives; the leak reads 40 dB below the known 100 uV.
	const leak = dated(2, { about: 'leakage', knownV: 100e-6, readDb: level(-40), offDb: level(-80) });
	const { table } = generatorWorth([mark(0, 100e-6, -40), mark(1, 1e-3, -22), leak]);
	expect(table?.fromDb).toBeCloseTo(decibelsOf(1e-3), 9);
	// Against the 1 mV place 100 uV gives 2 dB more, and so does the leak: 1 uV and 2 dB.
	expect(table?.leakDb?.value).toBeCloseTo(decibelsOf(1e-6) + 2, 2);
});

test('the leak and the depth that were read last count', () => {
	const leak = (minutes: number, off: number) =>
		dated(minutes, { about: 'leakage', knownV: 100e-6, readDb: level(-20), offDb: level(off) });
	const worth = generatorWorth([leak(2, -40), leak(1, -30), dated(3, { about: 'modulation', depth: 0.33 })]);
	// 20 dB below 100 uV is 10 uV; the worst that a leak out of step does is 1 dB from 1 / (1 - 10^(-1/20)) = 9.2 times it.
	expect(worth.leak?.leakV.value).toBeCloseTo(10e-6, 9);
	expect(worth.leak?.leastUsefulV).toBeCloseTo(91.95e-6, 7);
	expect(worth.depth).toEqual({ value: 0.33, uncertainty: null, marked: null, atMs: 180_000 });
});

test('a generator that warms up as an exponential is ready when its drift is below the limit, and each warm-up stands for itself', () => {
	// 3 kc to go with a time constant of 8 minutes: the slope over ten minutes falls below 100 c where 3000 exp(-t/8) (e^(10/8) - 1) is 100, about 34 minutes.
	const at = (onSince: number, minutes: number) =>
		dated(onSince + minutes, {
			about: 'warm-up',
			onSinceMs: 60_000 * onSince,
			frequencyHz: 1e6 + 3000 * Math.exp(-minutes / 8),
		});
	const minutes = Array.from({ length: 31 }, (_, k) => 2 * k);
	const { warmUp } = generatorWorth([at(-900, 1), ...minutes.map((own) => at(0, own))]);
	expect(warmUp?.readings).toHaveLength(31);
	expect((warmUp?.readyAtS ?? 0) / 60).toBeGreaterThan(31);
	expect((warmUp?.readyAtS ?? 0) / 60).toBeLessThan(37);
	expect(generatorWorth(minutes.slice(0, 8).map((own) => at(0, own))).warmUp?.readyAtS).toBe(null);
	expect(generatorWorth([]).warmUp).toBe(null);
});
