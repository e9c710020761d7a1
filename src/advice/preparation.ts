import type { SheetStep, StepQuestion } from './sheet-step.ts';

/**
 * Questions of a preparing step that are not answered with yes: until they are, no screw is turned. Not answered counts as no.
 * @param answers by id of the question, as given
 */
export function openPreparations(
	{ kind, questions }: Pick<SheetStep, 'kind' | 'questions'>,
	answers: Readonly<Record<string, string>>,
): readonly StepQuestion[] {
	return kind === 'prepare' ? questions.filter(({ id }) => answers[id] !== 'yes') : [];
}
