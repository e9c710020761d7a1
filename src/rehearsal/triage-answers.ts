import type { StepQuestion } from '#advice/sheet-step.ts';

/** What is no longer as its maker left it where somebody has turned the screws; how far stations are off is not known and counts as the worse case. */
const spoilt: ReadonlySet<string> = new Set(['plays', 'dial', 'near', 'untouched']);
/** Plate supply of an AC/DC set of five tubes: common practice. */
const supplyWords = '95 V';

/** Answers of triage, by id of the question, for a simulated set that is sound but for its screws. */
export function tamperedSetAnswers(questions: readonly StepQuestion[]): Record<string, string> {
	return Object.fromEntries(
		questions.map(({ id, answer }) => [id, answer === 'volts' ? supplyWords : spoilt.has(id) ? 'no' : 'yes']),
	);
}
