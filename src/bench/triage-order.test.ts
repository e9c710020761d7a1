import { expect, test } from 'vitest';
import { triageQuestions } from '#advice/triage.ts';
import { factsOf, sheetOf } from '../../test/example-set.ts';
import { after, noRun, type RunState } from './run-state.ts';
import { stoppedByTriage } from './triage-order.ts';

const facts = factsOf({ schema: 'peakwright/set-card', version: 1, supply: 'ac-dc' });
const [triage, marking] = sheetOf(facts).steps;
if (!triage || !marking) throw new Error('missing steps');

const questions = triageQuestions(facts);
const answered = (change: Readonly<Record<string, string>>) => ({
	...Object.fromEntries(questions.map(({ id, answer }) => [id, answer === 'volts' ? '95 V' : 'yes'])),
	...change,
});
const triageDone = (state: RunState, pass: number, change: Readonly<Record<string, string>> = {}): RunState =>
	after(state, {
		id: `done-${pass}`,
		run: 'r',
		order: pass,
		atMs: 0,
		what: { kind: 'step done', step: 'triage', pass, answers: answered(change) },
	});

// The program's own rule of safety: a sick set is not aligned.
test('the sheet stays closed until triage allows it, and an answer left open later closes it again', () => {
	const begun = noRun('r');
	expect(stoppedByTriage(triage, begun, facts)).toBeNull();
	expect(stoppedByTriage(marking, begun, facts)?.kind).toBe('not settled');
	const sick = triageDone(begun, 1, { bias: 'no' });
	expect(stoppedByTriage(marking, sick, facts)?.kind).toBe('repair first');
	const mended = triageDone(sick, 2);
	expect(stoppedByTriage(marking, mended, facts)).toBeNull();
	expect(stoppedByTriage(marking, triageDone(mended, 3, { hum: '' }), facts)?.kind).toBe('not settled');
});
