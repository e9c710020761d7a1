import { expect, test } from 'vitest';
import { createRandom } from '#core/numeric/random.ts';
import { type BenchSet, tuningAtMark, valuesAt } from '../receiver/bench-set.ts';
import { tm517 } from '../receiver/designs/tm-517.ts';
import { factoryTurns } from '../receiver/factory.ts';
import { type Fault, namedFaults } from '../receiver/faults.ts';
import { SetStream } from '../receiver/set-stream.ts';
import { clickTimesS } from './clicks.ts';
import { listenTo } from './listener.ts';

const rateHz = 16_000;
const toneHz = 400;

/** Noise of one thousandth of full scale with something in it. */
function sound(seconds: number, seed: number, at: (timeS: number) => number): Float64Array {
	const random = createRandom(seed);
	return Float64Array.from({ length: seconds * rateHz }, (_, k) => 1e-3 * random.gaussian() + at(k / rateHz));
}
const sine = (timeS: number, frequencyHz: number, peak: number): number =>
	peak * Math.sin(2 * Math.PI * frequencyHz * timeS);

test('noise alone is quiet, whatever its seed', () => {
	for (let seed = 1; seed <= 10; seed++)
		expect(
			listenTo(
				sound(4, seed, () => 0),
				rateHz,
				toneHz,
			).kind,
		).toBe('quiet');
});

test('hum is told by its lines: mains or twice that, 50 or 60 c', () => {
	for (const mainsHz of [50, 60] as const) {
		const own = listenTo(
			sound(4, 2, (timeS) => sine(timeS, mainsHz, 0.02) + sine(timeS, 2 * mainsHz, 0.005)),
			rateHz,
			toneHz,
		);
		expect(own.kind).toBe('hum');
		expect(own.hum).toEqual({ mainsHz, leads: 'mains' });
		const twice = listenTo(
			sound(4, 3, (timeS) => sine(timeS, 2 * mainsHz, 0.02) + sine(timeS, 4 * mainsHz, 0.006)),
			rateHz,
			toneHz,
		);
		expect(twice.hum).toEqual({ mainsHz, leads: 'twice' });
	}
});

// Known moments: every impulse is found at its own, within a frame of a thousandth of a second.
test('impulses are counted where they are', () => {
	const times = [0.31, 0.9, 1.204, 1.9, 2.55, 3.3];
	const samples = sound(4, 4, () => 0);
	for (const timeS of times) samples[Math.round(timeS * rateHz)] = 0.05;
	const found = clickTimesS(samples, rateHz);
	expect(found).toHaveLength(times.length);
	for (const [k, timeS] of times.entries()) expect(Math.abs((found[k] as number) - timeS)).toBeLessThan(2e-3);
	expect(listenTo(samples, rateHz, toneHz).kind).toBe('crackle');
});

test('a squeal has its pitch, the generator\u2019s own tone is no squeal', () => {
	const squeal = listenTo(
		sound(4, 5, (timeS) => sine(timeS, 2345, 0.02)),
		rateHz,
		toneHz,
	);
	expect(squeal.kind).toBe('squeal');
	expect(Math.abs((squeal.squealHz as number) - 2345)).toBeLessThan(1);
	expect(
		listenTo(
			sound(4, 6, (timeS) => sine(timeS, toneHz, 0.02)),
			rateHz,
			toneHz,
		).kind,
	).toBe('tone');
});

test('a regular putting is told from a crackle, with its rate', () => {
	const putts = listenTo(
		sound(6, 7, (timeS) => 0.05 * Math.exp(-((timeS * 4) % 1) * 8) * Math.sin(2 * Math.PI * 90 * timeS)),
		rateHz,
		toneHz,
	);
	expect(putts.kind).toBe('putting');
	expect(Math.abs((putts.beat?.perS as number) - 4)).toBeLessThan(0.2);
});

test('hum and squeal are heard beside the generator\u2019s tone, which may be some cycles off', () => {
	const beside = (extra: (timeS: number) => number) =>
		listenTo(
			sound(5, 8, (timeS) => sine(timeS, 410, 0.05) + extra(timeS)),
			rateHz,
			toneHz,
		);
	expect(beside(() => 0)).toMatchObject({ kind: 'tone', besideTone: 'quiet' });
	expect(beside((timeS) => sine(timeS, 120, 0.004))).toMatchObject({ kind: 'tone', besideTone: 'hum' });
	expect(beside((timeS) => sine(timeS, 2345, 0.004))).toMatchObject({ kind: 'tone', besideTone: 'squeal' });
});

const streamHz = 48e3;
/** Four seconds of a virtual set as the microphone hears it, generator down or at a level, seeded. */
function heard(faults: readonly Fault[], levelV: number): ReturnType<typeof listenTo> {
	const set: BenchSet = { design: tm517, faults, turns: factoryTurns(tm517), pointerSlipM: 0 };
	const signal = { frequencyHz: 1e6, levelV, toneHz, depth: 0.3, into: 'antenna' } as const;
	const stream = new SetStream(valuesAt(set, tuningAtMark(set, 1e6)), [signal], streamHz, 5);
	stream.fill(new Float64Array(streamHz / 2));
	const samples = new Float64Array(4 * streamHz);
	stream.fill(samples);
	return listenTo(
		samples.map((volts) => volts / 4),
		streamHz,
		toneHz,
	);
}

test.each([
	['a sound set', [], 0, 'quiet'],
	['a generator that leaks', [], 3e-6, 'tone'],
	['creeping silver', [namedFaults['silver-mica'] as Fault], 0, 'crackle'],
	['a dry filter capacitor', [namedFaults.hum as Fault], 0, 'hum'],
	['motorboating', [namedFaults.motorboating as Fault], 0, 'putting'],
] as const)('the virtual set with %s is heard for what it is', (_, faults, levelV, kind) => {
	expect(heard(faults, levelV).kind).toBe(kind);
});

test('a strip that oscillates squeals against a carrier', () => {
	expect(heard([{ kind: 'feedback', farad: 0.045e-12 }], 1e-4).kind).toBe('squeal');
});
