import { expect, test } from 'vitest';
import { judgeTriage, triageQuestions } from '#advice/triage.ts';
import { exampleCard, factsOf } from '../../test/example-set.ts';
import { tamperedSetAnswers } from './triage-answers.ts';

test.each(['517', '523'])('the simulated TM-%s is sound, and far enough off for a full alignment', (model) => {
	const facts = factsOf(exampleCard(`thistlemoor-tm-${model}`));
	const answers = tamperedSetAnswers(triageQuestions(facts));
	expect(judgeTriage(facts, answers)).toMatchObject({ kind: 'full alignment', mayGoOn: true });
});
