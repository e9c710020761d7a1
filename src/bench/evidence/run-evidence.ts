import type { RunEntry } from '#record/run.ts';
import { type SetFacts, setFacts } from '#record/set-facts.ts';
import { type RunState, runState } from '../run-state.ts';
import type { FoundAnswer } from './found-answer.ts';
import { ofDial } from './of-dial.ts';
import { missingAt, ofSweeps } from './of-sweeps.ts';
import { ofTests } from './of-tests.ts';
import { atStops } from './of-turns.ts';
import { countingEntries, ofEntries, plainEvidence } from './plain-evidence.ts';

/** What curves, dials and tests say together, and the entries beside them. */
function ofWork(
	state: RunState,
	counting: readonly RunEntry[],
	facts: SetFacts,
	nowMs: number,
): readonly FoundAnswer[] {
	const missing = atStops(counting).size > 0 ? missingAt(state, counting, facts) : () => null;
	return [
		...ofTests(state, facts, nowMs),
		...ofDial(state, facts, nowMs),
		...ofSweeps(state, counting, facts),
		...ofEntries(counting, facts.adjusters, missing),
	];
}

/**
 * What the entries of a run already say to the tests of a trouble, the latest answer of each test last; each with where it was found.
 * @param nowMs for the age of a generator's checks
 */
export function runEvidence(entries: readonly RunEntry[], nowMs: number): readonly FoundAnswer[] {
	const plain = plainEvidence(entries);
	if (plain !== null) return plain;
	const counting = countingEntries(entries);
	const state = runState('', counting);
	const facts = state.card === null ? null : setFacts(state.card);
	return facts?.ok ? ofWork(state, counting, facts.value, nowMs) : ofEntries(counting, [], () => null);
}
