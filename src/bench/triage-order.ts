import type { SheetStep } from '#advice/sheet-step.ts';
import { judgeTriage, type TriageVerdict } from '#advice/triage.ts';
import type { Language } from '#record/language.ts';
import type { SetFacts } from '#record/set-facts.ts';
import type { RunState } from './run-state.ts';

/** The verdict of triage that keeps a step from being worked, or `null` when the way is free; triage itself is always free. */
export function stoppedByTriage(
	step: SheetStep,
	state: RunState,
	facts: SetFacts,
	language?: Language,
): TriageVerdict | null {
	if (step.group === 'triage') return null;
	const verdict = judgeTriage(facts, state.answers, language);
	return verdict.mayGoOn ? null : verdict;
}
