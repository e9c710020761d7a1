import { expect, test } from 'vitest';
import { avcLaw, inputOf } from '#core/estimate/avc-law.ts';
import { tm517 } from '#core/receiver/designs/tm-517.ts';
import { SteadyState } from '#core/receiver/operating-point.ts';
import { standardTone } from '#core/receiver/signal.ts';
import { tamperedSet } from '#core/receiver/truth.ts';
import { virtualInstruments } from '#instruments/virtual/virtual-instruments.ts';
import { VirtualSet } from '#instruments/virtual/virtual-set.ts';
import type { SweptReading } from '#record/swept-reading.ts';
import { SimulatedClock, simulatedInstruments } from '../../test/simulated-instruments.ts';
import { stepLevels } from './avc-run.ts';
import { type SweepPlan, sweepIf } from './if-sweep.ts';
import type { SweepGround } from './sweep-hand.ts';

const plan: SweepPlan = {
	name: 'IF sweep',
	centreHz: 455e3,
	spanHz: 40e3,
	points: 61,
	...standardTone,
	levelV: 30e-3,
	level: 'below AVC',
};

function bench(seed: number, change: Partial<SweepGround> = {}) {
	const clock = new SimulatedClock();
	const set = new VirtualSet(tamperedSet(tm517, seed), seed, null);
	const panel = virtualInstruments(set, clock.now);
	panel.line('HAND:LEAD GRID;VOL 10');
	const gear = simulatedInstruments(panel, clock);
	const kept: SweptReading[] = [];
	const ground: SweepGround = {
		...gear,
		waitMs: clock.wait,
		keep: async (point) => kept.push(point),
		agrees: async () => true,
		turn: async () => 'on',
		progress: () => undefined,
		...change,
	};
	return { set, panel, gear, kept, ground };
}

test('a set is swept as its circuits are at rest, AVC settled, and the generator is left off', async () => {
	const { set, panel, kept, ground } = bench(3);
	const end = await sweepIf(ground, plan);
	if (end.kind !== 'swept') throw new Error(JSON.stringify(end));
	expect(panel.line('OUTP?').reply).toBe('0');
	expect(end.points.length).toBeGreaterThan(50);
	// The steady state of the same circuits, solved at each point without any course of time.
	const steady = new SteadyState(set.values);
	for (const { frequencyHz, levelDb } of end.points) {
		const { toneV } = steady.operatingPoint({
			...standardTone,
			frequencyHz,
			levelV: end.levelV,
			into: 'converter grid',
		});
		// Near the floor the reading scatters with the noise of the meter.
		const noiseDb = (20 / Math.LN10) * (0.3e-3 / toneV);
		expect(Math.abs(levelDb - 20 * Math.log10(toneV))).toBeLessThan(0.15 + 4 * noiseDb);
	}
	// AVC is out of it: six decibels read at least five.
	expect(end.of6Db).toBeGreaterThan(5);
	// Nothing drifts in a simulated set: the two readings of the top differ by no more than they say.
	expect(Math.abs(end.driftDb.value)).toBeLessThan(4 * (end.driftDb.uncertainty ?? 0));
	// Every reading is in the record, with where the generator stood.
	expect(kept.filter(({ purpose }) => purpose === 'curve').length).toBeGreaterThanOrEqual(2 * end.points.length);
	expect(new Set(kept.filter(({ purpose }) => purpose === 'curve').map(({ levelV }) => levelV))).toEqual(
		new Set([end.levelV]),
	);
});

test('the level is the one at which a step of 6 dB reads nearest to 6 dB', async () => {
	// Of these sets one passes 5.0 dB on at 7.5 mV and 6.3 dB at half of that; of another AVC ends where the detector's knee begins.
	for (const [seed, least, most] of [
		[12, 6, 6.5],
		[8, 5, 5.7],
	] as const) {
		const end = await sweepIf(bench(seed).ground, { ...plan, points: 15 });
		const of6Db = end.kind === 'swept' ? end.of6Db : null;
		expect(of6Db, `${seed}`).toBeGreaterThan(least);
		expect(of6Db, `${seed}`).toBeLessThan(most);
	}
});

test('a sweep that has no more places to read ends with a return to its reference', async () => {
	const { kept, ground } = bench(3);
	// Places finer than a two-hundredth of the span are not read: they run out long before so many points.
	const end = await sweepIf(ground, { ...plan, spanHz: 12e3, points: 400, level: 'as it is', levelV: 1e-3 });
	expect(end.kind === 'swept' && end.points.length).toBeLessThan(400);
	expect(kept.at(-1)?.purpose).toBe('reference');
});

test('a first step of 6 dB that loses the signal is said to be unknown', async () => {
	const { ground } = bench(3);
	let levelV = 0;
	const generator: typeof ground.generator = {
		...ground.generator,
		name: 'deaf below',
		setLevel: (wantedV) => {
			levelV = wantedV;
			return ground.generator.setLevel(wantedV);
		},
	};
	const meter: typeof ground.meter = {
		...ground.meter,
		name: 'deaf below',
		read: async () => {
			const read = await ground.meter.read();
			return read.kind === 'level' && levelV < plan.levelV ? { ...read, levelDb: null, trust: 'no tone' } : read;
		},
	};
	const end = await sweepIf({ ...ground, generator, meter }, { ...plan, points: 21 });
	expect(end.kind === 'swept' && end.of6Db).toBeNull();
});

test('a sweep that is stopped stops at once, with the generator off and what was read kept', async () => {
	let readings = 0;
	const { panel, kept, ground } = bench(3, { turn: async () => (++readings > 40 ? 'stopped' : 'on') });
	expect(await sweepIf(ground, plan)).toEqual({ kind: 'stopped' });
	expect(kept).toHaveLength(40);
	expect(panel.line('OUTP?').reply).toBe('0');
});

test('a reading that cannot be kept ends the sweep with the generator off', async () => {
	const { panel, ground } = bench(3, {
		keep: async () => {
			throw new Error('the disk is full');
		},
	});
	await expect(sweepIf(ground, plan)).rejects.toThrow('the disk is full');
	expect(panel.line('OUTP?').reply).toBe('0');
});

test('a lead that hangs in the air is no signal', async () => {
	const { panel, ground } = bench(3);
	panel.line('HAND:LEAD LOOS;VOL 0');
	expect(await sweepIf(ground, plan)).toEqual({ kind: 'no signal' });
});

test('a generator that cannot be switched off is said to the person', async () => {
	const { gear, ground } = bench(3);
	const stuck = { ...gear.generator, switchOff: async () => ({ kind: 'failed', words: 'no answer' }) as const };
	const end = await sweepIf({ ...ground, generator: stuck, turn: async () => 'stopped' }, plan);
	expect(end).toMatchObject({ kind: 'failed' });
	expect((end as { words: string }).words).toContain('switch it off by hand');
});

test('a level that the person does not agree to is not set', async () => {
	const { gear, ground } = bench(3, { agrees: async () => false });
	const asking = { ...gear.generator, setLevel: async () => ({ kind: 'asks', words: 'that much?' }) as const };
	expect(await sweepIf({ ...ground, generator: asking }, plan)).toEqual({ kind: 'asks', words: 'that much?' });
	expect(gear.sent).not.toContain('OUTP ON');
});

test('the AVC law that is stepped out turns readings back into the generator', async () => {
	const { set, panel, ground } = bench(3);
	const avc = { name: 'AVC curve', frequencyHz: 455e3, leastV: 1e-3, mostV: 0.3, stepDb: 3 };
	const end = await stepLevels(ground, avc);
	if (end.kind !== 'stepped') throw new Error(JSON.stringify(end));
	expect(panel.line('OUTP?').reply).toBe('0');
	const law = avcLaw(end.readings);
	if (!law) throw new Error('no law');
	// Circuits at rest at levels between the steps, solved without any course of time.
	const steady = new SteadyState(set.values);
	for (const inputDb of [-48, -41.5, -35, -28.5, -22]) {
		const signal = {
			...standardTone,
			frequencyHz: 455e3,
			levelV: 10 ** (inputDb / 20),
			into: 'converter grid',
		} as const;
		const back = inputOf(law, { value: 20 * Math.log10(steady.operatingPoint(signal).toneV), uncertainty: 0 });
		if (!back || back.uncertainty === null) throw new Error(`no input at ${inputDb}`);
		expect(Math.abs(back.value - inputDb)).toBeLessThan(4 * back.uncertainty);
		expect(back.uncertainty).toBeLessThan(0.5);
	}
});
