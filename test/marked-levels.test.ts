import { expect, test } from 'vitest';
import { type MeasuredGenerator, measuredGenerators } from '#advice/marked-level.ts';
import { type FittedLaw, fittedLaw } from '#bench/avc-laws.ts';
import { countingPoints } from '#bench/sweep-log.ts';
import { trueSweep } from '#bench/true-sweep.ts';
import { inputOf } from '#core/estimate/avc-law.ts';
import { createRandom, type Random } from '#core/numeric/random.ts';
import { tm517 } from '#core/receiver/designs/tm-517.ts';
import { SteadyState } from '#core/receiver/operating-point.ts';
import { attenuatedV, serviceGenerator } from '#core/receiver/service-generator.ts';
import { standardTone } from '#core/receiver/signal.ts';
import { tamperedSet } from '#core/receiver/truth.ts';
import { heldGeneratorLevel } from '#instruments/virtual/held-output.ts';
import { VirtualSet } from '#instruments/virtual/virtual-set.ts';
import { untouched } from '#instruments/virtual/virtual-state.ts';
import type { GeneratorTrial } from '#record/generator-trial.ts';
import { decibelsOf } from '#record/level-unit.ts';
import { type PaperBench, paperBench } from './paper-bench.ts';
import { averaged, point } from './stepped-set.ts';

const name = 'old Bakelite';
const dbv = (volts: number): number => 20 * Math.log10(volts);
const place = { frequencyHz: tm517.ifHz, ...standardTone, into: 'converter grid' } as const;
const seeds = Array.from({ length: 24 }, (_, k) => 100 + k);

/** A set with an old service generator of its own beside it, warm. */
function benchOf(seed: number): VirtualSet {
	const generator = { kind: 'service', seed, onSinceMs: -86_400_000, platesHz: tm517.ifHz } as const;
	const set = new VirtualSet(tamperedSet(tm517, seed), seed, { ...untouched(), generator }, () => 0);
	set.place(place, 1000e3);
	set.setVolume(0.1);
	return set;
}
function setLevel(set: VirtualSet, markedV: number): void {
	set.changeLevel(20 * Math.log10(markedV / set.state.levelV));
}

/** What a hand reads of the generator by a whistle, in proportion and to a tenth of a decibel or two: places 6 dB apart from 40 uV to 0.3 V, and the leak. */
function measured(set: VirtualSet, random: Random): readonly MeasuredGenerator[] {
	const uncertainty = 0.15;
	const read = () => ({ value: dbv(set.signal.levelV) + uncertainty * random.gaussian(), uncertainty });
	const trial = (of: GeneratorTrial['read']) => ({
		atMs: 0,
		trial: { kind: 'generator trial' as const, generator: name, read: of },
	});
	const places = Array.from({ length: 14 }, (_, k) => {
		const markedV = 40e-6 * 10 ** ((6 * k) / 20);
		setLevel(set, markedV);
		return trial({ about: 'attenuator', markedDb: decibelsOf(markedV), markedIn: 'volts', readDb: read() });
	});
	setLevel(set, 1e-3);
	const readDb = read();
	set.moveLead(false);
	const leak = trial({ about: 'leakage', knownV: 1e-3, readDb, offDb: read() });
	set.moveLead(true);
	return measuredGenerators([...places, leak]);
}

/** A difference of two values less the truth, decibels, and the same in its standard deviations. */
interface Miss {
	readonly errorDb: number;
	readonly sigmas: number;
}
const rms = (misses: readonly Miss[], of: keyof Miss): number =>
	Math.sqrt(misses.reduce((sum, miss) => sum + miss[of] ** 2, 0) / misses.length);

/** Half as far off at most, and nineteen in twenty within two standard deviations, which are not said wider than three times what they need be. */
function expectNearer(corrected: readonly Miss[], asMarked: readonly Miss[]): void {
	expect(rms(corrected, 'errorDb')).toBeLessThan(0.55 * rms(asMarked, 'errorDb'));
	const within = corrected.filter(({ sigmas }) => Math.abs(sigmas) < 2).length;
	expect(within / corrected.length).toBeGreaterThan(0.95);
	expect(rms(corrected, 'sigmas')).toBeLessThan(1);
	expect(rms(corrected, 'sigmas')).toBeGreaterThan(1 / 3);
}

/** How a law turns steps of 10 dB of true input back, from 200 uV to 60 mV. */
function lawMisses(set: VirtualSet, law: FittedLaw): Miss[] {
	const steady = new SteadyState(set.values);
	const { signal } = set;
	const inputs = Array.from({ length: 50 }, (_, k) => {
		const levelV = 200e-6 * 10 ** (k / 20);
		const reading = { value: dbv(steady.operatingPoint({ ...signal, levelV }).toneV), uncertainty: 0 };
		return inputOf(law.law, reading);
	});
	return inputs.flatMap((low, k) => {
		const high = inputs[k + 10];
		if (!low || !high) return [];
		const errorDb = high.value - low.value - 10;
		return [{ errorDb, sigmas: errorDb / Math.hypot(low.uncertainty ?? 0, high.uncertainty ?? 0) }];
	});
}

async function steppedLaw(paper: PaperBench, set: VirtualSet) {
	const { toneHz, depth, frequencyHz } = place;
	const begun = { kind: 'AVC law begun', step: 'if', point, generator: 'set by hand', markedBy: name } as const;
	const law = (await paper.bench.keepAvc({ ...begun, frequencyHz, toneHz, depth })).avc.laws.at(-1)?.id ?? '';
	for (let step = 0; step < 25; step++) {
		const levelV = 40e-6 * 10 ** ((3 * step) / 20);
		setLevel(set, levelV);
		const reading = averaged(set);
		if (reading) await paper.bench.keepAvc({ kind: 'AVC step', law, levelV, reading });
	}
	const [stepped] = paper.bench.state.avc.laws;
	if (!stepped) throw new Error('no law');
	return stepped;
}

test('an AVC law by an old generator is nearer the truth with its attenuator table, and as uncertain as it says', async () => {
	const [corrected, asMarked]: [Miss[], Miss[]] = [[], []];
	for (const seed of seeds) {
		const set = benchOf(seed);
		const generators = measured(set, createRandom(seed));
		const stepped = await steppedLaw(await paperBench(), set);
		const [law, bare] = [fittedLaw(stepped, generators), fittedLaw(stepped)];
		expect(law?.corrected?.name).toBe(name);
		if (law) corrected.push(...lawMisses(set, law));
		if (bare) asMarked.push(...lawMisses(set, bare));
	}
	expect(corrected.length).toBeGreaterThanOrEqual(asMarked.length);
	expectNearer(corrected, asMarked);
});

test('a curve by an old generator’s marks is nearer the truth with its attenuator table, and as uncertain as it says', async () => {
	const [corrected, asMarked]: [Miss[], Miss[]] = [[], []];
	for (const seed of seeds) {
		const set = benchOf(seed);
		const generators = measured(set, createRandom(seed));
		const { bench } = await paperBench();
		const sweep = (await bench.beginSweep('base', null)).sweeps.at(-1)?.id ?? '';
		const trueDb = new Map<number, number>();
		const law = serviceGenerator(seed);
		for (let k = -12; k <= 12; k++) {
			const frequencyHz = tm517.ifHz + 1000 * k;
			set.place({ ...place, frequencyHz }, 1000e3);
			const reading = heldGeneratorLevel(set, 0);
			if (!reading?.levelDb) continue;
			await bench.keepGeneratorLevel(sweep, frequencyHz, reading, name);
			trueDb.set(frequencyHz, -dbv(Math.hypot(attenuatedV(law, 10 ** (reading.levelDb.value / 20)), law.leakV)));
		}
		const [kept] = bench.state.sweeps;
		if (!kept) throw new Error('no sweep');
		const misses = (of: typeof kept): Miss[] => {
			const points = countingPoints(of);
			const top = points.toSorted((one, other) => other.levelDb - one.levelDb)[0];
			return points.flatMap((one) => {
				if (!top || one === top) return [];
				const errorDb =
					one.levelDb - top.levelDb - ((trueDb.get(one.frequencyHz) ?? 0) - (trueDb.get(top.frequencyHz) ?? 0));
				return [{ errorDb, sigmas: errorDb / Math.hypot(one.uncertaintyDb ?? 0, top.uncertaintyDb ?? 0) }];
			});
		};
		corrected.push(...misses(trueSweep(kept, generators).sweep));
		asMarked.push(...misses(kept));
	}
	expect(corrected).toHaveLength(24 * seeds.length);
	expectNearer(corrected, asMarked);
});
