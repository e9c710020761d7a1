import { type TestId, tests } from '#advice/trouble/tests.ts';
import type { RunEntry } from '#record/run.ts';
import { type SetFacts, setFacts } from '#record/set-facts.ts';
import { type RunState, runState } from '../run-state.ts';
import type { FoundAnswer } from './found-answer.ts';
import { ofDial } from './of-dial.ts';
import { ofListening } from './of-listening.ts';
import { missingAt, ofSweeps } from './of-sweeps.ts';
import { ofTests } from './of-tests.ts';
import { ofTriage } from './of-triage.ts';
import { atStops, ofTurns } from './of-turns.ts';

const stepOutcome = { linear: 'follows', 'too strong': 'less', 'more than 6 dB': 'more' } as const;

/** What single entries say, in their order. */
function said({ what }: RunEntry): readonly FoundAnswer[] {
	switch (what.kind) {
		case 'step done':
			return ofTriage(what);
		case 'heard':
			return ofListening(what);
		case '6 dB step': {
			const { verdict, stepDb } = what;
			if (!Object.hasOwn(stepOutcome, verdict)) return [];
			const outcome = stepOutcome[verdict as keyof typeof stepOutcome];
			return [{ test: 'six-db', outcome, words: `${stepDb.value.toFixed(1)} dB`, foundIn: 'adjusters' }];
		}
		case 'test answered': {
			const { test, outcome, words } = what;
			if (!Object.hasOwn(tests, test)) return [];
			return [{ test: test as TestId, outcome, ...(words === undefined ? {} : { words }), foundIn: 'troubles' }];
		}
		default:
			return [];
	}
}

/** What curves, dials, tests and turns say together. */
function ofWork(state: RunState, entries: readonly RunEntry[], facts: SetFacts, nowMs: number): readonly FoundAnswer[] {
	const missing = atStops(entries).size > 0 ? missingAt(state, entries, facts) : () => null;
	return [
		...ofTests(state, facts),
		...ofDial(state, facts, nowMs),
		...ofSweeps(state, entries, facts),
		...ofTurns(entries, facts.adjusters, missing),
	];
}

/**
 * What the entries of a run already say to the tests of a trouble, the latest answer of each test last; each with where it was found.
 * @param nowMs for the age of a generator's checks
 */
export function runEvidence(entries: readonly RunEntry[], nowMs: number): readonly FoundAnswer[] {
	const struck = new Set(entries.map(({ what }) => (what.kind === 'struck' ? what.entry : null)));
	const counting = entries.filter(({ id }) => !struck.has(id));
	const state = runState('', counting);
	const facts = state.card === null ? null : setFacts(state.card);
	const work = facts?.ok ? ofWork(state, counting, facts.value, nowMs) : ofTurns(counting, [], () => null);
	return [...work, ...counting.flatMap(said)];
}
