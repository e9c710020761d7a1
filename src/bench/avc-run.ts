import type { SheetStep } from '#advice/sheet-step.ts';
import type { AvcReading } from '#core/estimate/avc-law.ts';
import { standardTone } from '#core/receiver/signal.ts';
import type { AskedMeter, Generator } from '#instruments/instrument.ts';
import type { Bench } from './bench.ts';
import { type Left, type SweepGround, SweepHand, seenThrough } from './sweep-hand.ts';

/** Steps of level at one frequency, with the standard tone. */
export interface AvcPlan {
	readonly name: string;
	readonly frequencyHz: number;
	/** Where the steps begin: weak. */
	readonly leastV: number;
	readonly mostV: number;
	readonly stepDb: number;
}

/** Readings at known levels, decibels of one open-circuit volt, ascending. */
export interface AvcSteps {
	readonly kind: 'stepped';
	readonly readings: readonly AvcReading[];
}

async function stepped(ground: SweepGround, plan: AvcPlan): Promise<AvcSteps | Left> {
	const hand = new SweepHand(ground, plan.name, plan.leastV);
	await hand.begin(plan.frequencyHz, standardTone.toneHz, standardTone.depth);
	const count = Math.floor((20 * Math.log10(plan.mostV / plan.leastV)) / plan.stepDb) + 1;
	const readings: AvcReading[] = [];
	for (let step = 0; step < count; step++) {
		await hand.setLevel(plan.leastV * 10 ** ((step * plan.stepDb) / 20));
		const { levelDb, uncertaintyDb } = await hand.levelAt(plan.frequencyHz, 'level');
		ground.progress(step + 1, count);
		if (levelDb === null || uncertaintyDb === null) continue;
		readings.push({ inputDb: 20 * Math.log10(hand.levelV), outputDb: levelDb, uncertaintyDb });
	}
	return readings.length === 0 ? { kind: 'no signal' } : { kind: 'stepped', readings };
}

/** Steps the generator up from a weak signal and reads each step once AVC has come to rest; steps at which nothing is heard are left out. */
export function stepLevels(ground: SweepGround, plan: AvcPlan): Promise<AvcSteps | Left> {
	return seenThrough(ground, () => stepped(ground, plan));
}

/** Keeps the steps as a law of the set, for the step of its sheet that they were taken at. */
export async function keepLaw(
	bench: Bench,
	{ id, hookUp }: SheetStep,
	{ frequencyHz }: AvcPlan,
	{ generator, meter }: { readonly generator: Generator; readonly meter: AskedMeter },
	{ readings }: AvcSteps,
	nowMs: () => number,
): Promise<void> {
	const { toneHz, depth } = standardTone;
	const point = hookUp?.point ?? '';
	const name = generator.name.slice(0, 200);
	const begun = { kind: 'AVC law begun', step: id, point, generator: name, frequencyHz, toneHz, depth } as const;
	const law = (await bench.keepAvc(begun)).avc.laws.at(-1)?.id ?? '';
	const read = { kind: 'level', instrument: meter.name, reference: 'dBV', quantity: 'tone', trust: 'ok' } as const;
	for (const { inputDb, outputDb, uncertaintyDb } of readings) {
		const reading = { ...read, atMs: nowMs(), levelDb: { value: outputDb, uncertainty: uncertaintyDb } };
		await bench.keepAvc({ kind: 'AVC step', law, levelV: 10 ** (inputDb / 20), reading });
	}
}
