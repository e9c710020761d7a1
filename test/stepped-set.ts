import { type FittedLaw, lawFor, noAvcWork } from '#bench/avc-laws.ts';
import { tm517 } from '#core/receiver/designs/tm-517.ts';
import { SteadyState } from '#core/receiver/operating-point.ts';
import { standardTone } from '#core/receiver/signal.ts';
import { tamperedSet } from '#core/receiver/truth.ts';
import { VirtualSet } from '#instruments/virtual/virtual-set.ts';
import type { LevelReading } from '#record/reading.ts';
import { type PaperBench, paperBench } from './paper-bench.ts';

/** Where the generator's lead is. */
export const point = 'converter grid';
const generator = { frequencyHz: tm517.ifHz, ...standardTone, into: 'converter grid' } as const;
/** Far above the knee: AVC leaves a tenth to a third of each decibel. */
export const strongV = 20e-3;

/** A second of readings, averaged. */
export function averaged(set: VirtualSet): LevelReading | null {
	const read = Array.from({ length: 10 }, () => set.read(0));
	const [first] = read;
	const levels = read.flatMap(({ levelDb }) => (levelDb === null ? [] : [levelDb.value]));
	if (!first?.levelDb || levels.length < 10) return null;
	const value = levels.reduce((sum, level) => sum + level, 0) / levels.length;
	return { ...first, levelDb: { value, uncertainty: (first.levelDb.uncertainty ?? 0) / Math.sqrt(10) } };
}

/** Steps the set's law out by 3 dB, keeping each step. */
async function stepOut(paper: PaperBench, set: VirtualSet): Promise<FittedLaw> {
	const { toneHz, depth, frequencyHz } = generator;
	const begun = { kind: 'AVC law begun', step: 'if', point, generator: 'virtual', frequencyHz, toneHz, depth } as const;
	const law = (await paper.bench.keepAvc(begun)).avc.laws.at(-1)?.id ?? '';
	for (let step = 0; step < 26; step++) {
		const levelV = 20e-6 * 10 ** ((3 * step) / 20);
		set.changeLevel(20 * Math.log10(levelV / set.state.levelV));
		const reading = averaged(set);
		if (reading) await paper.bench.keepAvc({ kind: 'AVC step', law, levelV, reading });
	}
	const { held } = lawFor(paper.bench.state.avc, noAvcWork, point, null);
	if (!held) throw new Error('no law');
	return held;
}

/** A tampered set on the bench, its AVC law stepped out, the generator far above the knee. */
export async function steppedSet(seed: number) {
	const paper = await paperBench();
	const set = new VirtualSet(tamperedSet(tm517, seed), seed, null);
	set.place(generator, 1000e3);
	set.setVolume(0.1);
	const held = await stepOut(paper, set);
	set.changeLevel(20 * Math.log10(strongV / set.state.levelV));
	return { paper, set, held };
}

/** Output of the circuits at rest, volts, without meter or noise. */
export function toneV(set: VirtualSet, levelV: number): number {
	const { values, signal } = set;
	return new SteadyState(values).operatingPoint({ ...signal, levelV }).toneV;
}
