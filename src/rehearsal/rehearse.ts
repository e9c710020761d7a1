import type { Sheet } from '#advice/sheet-step.ts';
import type { BenchSet } from '#core/receiver/bench-set.ts';
import { type Guidance, workGuided } from './guided-hand.ts';
import { type Judgement, judged, type SetFigures, setFigures } from './judgement.ts';
import { type Gear, SimulatedBench } from './simulated-bench.ts';
import { workUsually } from './usual-hand.ts';

/** How a rehearsal went. */
export interface Rehearsal extends Judgement {
	readonly adjustments: number;
	readonly readings: number;
	readonly before: SetFigures;
}

/**
 * A simulated hand works the sheet on a set; the result is judged by the set's true values.
 * @param guidedBy for a hand that follows the product's guidance; `null` for the usual hand
 */
export function rehearse(set: BenchSet, sheet: Sheet, gear: Gear, guidedBy: Guidance | null = null): Rehearsal {
	const bench = new SimulatedBench(set, gear);
	if (guidedBy) workGuided(bench, sheet, guidedBy);
	else workUsually(bench, sheet);
	return {
		adjustments: bench.adjustments,
		readings: bench.readings,
		before: setFigures(set),
		...judged(bench.set),
	};
}
