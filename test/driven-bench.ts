import { analyseResponse, type ResponseAnswer } from '#advice/response/response-answer.ts';
import type { SheetStep } from '#advice/sheet-step.ts';
import { Bench } from '#bench/bench.ts';
import { countingPoints, type RunSweep } from '#bench/sweep-log.ts';
import type { WorkGround } from '#bench/work-ground.ts';
import { type BenchSet, tuningAtMark, valuesAt } from '#core/receiver/bench-set.ts';
import { tm517 } from '#core/receiver/designs/tm-517.ts';
import { standardTone } from '#core/receiver/signal.ts';
import { type TestFigures, testFigures } from '#core/receiver/test-figures.ts';
import { tamperedSet } from '#core/receiver/truth.ts';
import { virtualInstruments } from '#instruments/virtual/virtual-instruments.ts';
import { VirtualSet } from '#instruments/virtual/virtual-set.ts';
import type { RunEntry } from '#record/run.ts';
import { exampleCard, factsOf, sheetOf } from './example-set.ts';
import { SimulatedClock, simulatedHand, simulatedInstruments } from './simulated-instruments.ts';

/** The demo set's facts. */
export const facts = factsOf(exampleCard());
/** The step of its sheet that sets the IF. */
export const ifStep = sheetOf(facts).steps.find(({ id }) => id === 'if') as SheetStep;

/** The curve, and a nudge of each adjuster of the step. */
export const nudgePlan = {
	centreHz: 455e3,
	spanHz: 50e3,
	points: 61,
	levelV: 1e-3,
	outputV: 0.4,
	role: 'base',
	adjusters: ifStep.adjusters.map((id) => ({ id, name: id })),
} as const;

/** A tampered virtual set on the bench with its own instruments, in simulated time; its journal is in memory. */
export async function drivenBench(seed: number, lead: 'ANT' | 'GRID', change: Partial<WorkGround> = {}) {
	const clock = new SimulatedClock();
	const set = new VirtualSet(tamperedSet(tm517, seed), seed, null);
	const panel = virtualInstruments(set, clock.now);
	panel.line(`HAND:LEAD ${lead};VOL ${lead === 'GRID' ? 10 : 100}`);
	const gear = simulatedInstruments(panel, clock);
	const entries: RunEntry[] = [];
	const journal = {
		append: async (more: readonly RunEntry[]) => void entries.push(...more),
		standing: async () => entries,
	};
	const ground = { run: 'driven', journal, nowMs: clock.now, newId: () => `entry-${entries.length}` };
	const bench = await Bench.begin(ground, facts.card, {});
	const done: number[] = [];
	const work: WorkGround = {
		...gear,
		hand: simulatedHand(panel),
		waitMs: clock.wait,
		keep: (reading) => bench.keepSweptReading(reading),
		agrees: async () => true,
		turn: async () => 'on',
		progress: (own, of) => done.push(own / of),
		...change,
	};
	return { clock, set, panel, bench, work, gear, done };
}

/** The set as its screws stand now. */
export const standing = (set: VirtualSet, seed: number): BenchSet => ({
	...tamperedSet(tm517, seed),
	turns: set.state.turns,
});

/** Marks at which the demo set is tested, ascending. */
export const marksHz = [600e3, 1000e3, 1400e3] as const;

/** The figures of the standard tests by the circuits at rest, without meter, generator or hand. */
export function figuresOf(own: BenchSet): TestFigures {
	return testFigures((dialHz, volume) => valuesAt(own, tuningAtMark(own, dialHz), volume), marksHz, 10e3);
}

/** Where the circuits of a set sit: f = 1 / (2 pi sqrt(L C)), Thomson's formula, from coil and condenser as the screws stand. */
export const circuitsHz = (set: VirtualSet): readonly number[] =>
	set.values.windings.map(({ henry, farad }) => 1 / (2 * Math.PI * Math.sqrt(henry * farad)));

/** What the advice makes of the curves of a run. */
export function answerOf([base, ...nudges]: readonly RunSweep[]): ResponseAnswer {
	const question = {
		base: base ? countingPoints(base) : [],
		nudges: nudges.map((sweep) => ({ name: sweep.adjuster ?? '', points: countingPoints(sweep) })),
		second: null,
		ifHz: 455e3,
		toneHz: standardTone.toneHz,
		meterDb: null,
		generatorHz: 10,
		aim: { kind: 'on IF' },
		windingCount: 4,
	} as const;
	return analyseResponse(question).answer;
}
