import type { SheetStep } from '#advice/sheet-step.ts';
import type { SimulatedBench } from './simulated-bench.ts';
import { stepPlace } from './step-place.ts';

/** Turns by which a screw is moved between two looks at the meter, coarse and then fine. */
const coarseTurns = 1 / 16;
const fineTurns = 1 / 32;

/** Where the hand has been and what it read there. */
interface Look {
	readonly turns: number;
	readonly levelDb: number;
}

/** Walks an adjuster one way until the reading has clearly fallen off the best, or the stop is felt. */
function walk(bench: SimulatedBench, adjuster: string, read: () => number, stepTurns: number, looks: Look[]): void {
	const clearDb = Math.max(3 * bench.meterDb, 0.8);
	for (;;) {
		const before = bench.turnsOf(adjuster);
		bench.turnTo(adjuster, before + stepTurns);
		const turns = bench.turnsOf(adjuster);
		const levelDb = read();
		looks.push({ turns, levelDb });
		const best = Math.max(...looks.map((look) => look.levelDb));
		if (best - levelDb > clearDb) return;
		if (turns <= 0 || turns >= bench.travelOf(adjuster)) return;
	}
}

/** The middle of the places whose reading cannot be told from the best. */
function middleOfBest(looks: readonly Look[], meterDb: number): number {
	const best = Math.max(...looks.map(({ levelDb }) => levelDb));
	const top = looks.filter(({ levelDb }) => best - levelDb <= meterDb * 1.01);
	return (Math.min(...top.map(({ turns }) => turns)) + Math.max(...top.map(({ turns }) => turns))) / 2;
}

/** Rocks an adjuster through its peak, coarse and then fine, and sets it in the middle of the best. A minimum is a peak of the negative. */
export function peak(bench: SimulatedBench, adjuster: string, aim: 'maximum' | 'minimum'): void {
	bench.adjustments++;
	const sign = aim === 'maximum' ? 1 : -1;
	const read = (): number => sign * bench.readDb();
	for (const stepTurns of [coarseTurns, fineTurns]) {
		if (aim === 'maximum') bench.setLevel();
		const start = bench.turnsOf(adjuster);
		const looks: Look[] = [{ turns: start, levelDb: read() }];
		walk(bench, adjuster, read, stepTurns, looks);
		bench.turnTo(adjuster, start);
		walk(bench, adjuster, read, -stepTurns, looks);
		bench.turnTo(adjuster, middleOfBest(looks, bench.meterDb));
	}
}

/** Sets generator and dial as a step says. */
function prepare(bench: SimulatedBench, step: SheetStep): void {
	const { generator, dialHz } = stepPlace(step, bench.set.design);
	bench.pointAt(dialHz);
	bench.hookUp(generator);
	bench.setLevel();
}

/** Works one step once; gives back how much the reading gained, decibels of generator and meter together. */
export function work(bench: SimulatedBench, step: SheetStep): number {
	prepare(bench, step);
	const aim = step.aim === 'minimum' ? 'minimum' : 'maximum';
	const before = bench.readDb() - 20 * Math.log10(bench.levelV);
	for (const adjuster of step.adjusters) peak(bench, adjuster, aim);
	if (aim === 'maximum') bench.setLevel();
	const after = bench.readDb() - 20 * Math.log10(bench.levelV);
	return aim === 'maximum' ? after - before : before - after;
}
