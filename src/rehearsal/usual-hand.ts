import type { Sheet } from '#advice/sheet-step.ts';
import { work } from './hand.ts';
import type { SimulatedBench } from './simulated-bench.ts';

/** Passes after which the usual hand lets it be. */
const mostPasses = 5;

/**
 * Works a sheet as restorers usually do: each adjuster peaked by meter in the sheet's order, repeats until a pass gains less
 * than the meter can tell. It never looks at the curve and computes nothing.
 */
export function workUsually(bench: SimulatedBench, sheet: Sheet): void {
	for (const step of sheet.steps) {
		if (step.kind !== 'adjust') continue;
		work(bench, step);
		const again = step.repeat
			.map((id) => sheet.steps.find((other) => other.id === id))
			.filter((other) => other !== undefined);
		for (let pass = 1; again.length > 0 && pass < mostPasses; pass++) {
			const gains = again.map((other) => work(bench, other));
			if (Math.max(...gains) <= bench.meterDb) break;
		}
	}
}
