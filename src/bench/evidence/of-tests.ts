import { generatorsKnown } from '#advice/generators-known.ts';
import { proofOf } from '#advice/tests/proof.ts';
import { testAnswers } from '#advice/tests/test-trouble.ts';
import type { SetFacts } from '#record/set-facts.ts';
import type { RunState } from '../run-state.ts';
import type { FoundAnswer } from './found-answer.ts';

/** What the standard tests of a run say to the tests of trouble: those after the work, else those before it. */
export function ofTests(state: RunState, facts: SetFacts, nowMs: number): readonly FoundAnswer[] {
	const { before, after } = proofOf(facts, state.testGear, state.testReadings, generatorsKnown(state.dial, nowMs));
	const latest = after ?? before;
	return latest === null ? [] : testAnswers(facts, latest).map((answer) => ({ ...answer, foundIn: 'standard tests' }));
}
