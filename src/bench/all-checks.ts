import type { DatedCheck } from '#advice/generator-place.ts';
import type { DatedTrial } from '#advice/marked-table.ts';
import type { RunEntry } from '#record/run.ts';
import type { RunState } from './run-state.ts';

/**
 * Checks and trials of generators in all runs; those of the run in hand as it knows them, struck ones left out.
 * @param kept entries of every run that are of that kind, in any order
 */
export function allChecks(
	kept: readonly RunEntry[],
	{ run, dial }: Pick<RunState, 'run' | 'dial'>,
): { readonly checks: readonly DatedCheck[]; readonly trials: readonly DatedTrial[] } {
	const elsewhere = kept.filter((entry) => entry.run !== run);
	return {
		checks: [
			...elsewhere.flatMap(({ atMs, what }) => (what.kind === 'generator check' ? [{ atMs, check: what }] : [])),
			...dial.checks,
		],
		trials: [
			...elsewhere.flatMap(({ atMs, what }) => (what.kind === 'generator trial' ? [{ atMs, trial: what }] : [])),
			...dial.trials,
		],
	};
}
