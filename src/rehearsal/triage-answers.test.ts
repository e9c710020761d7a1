import { readFileSync } from 'node:fs';
import { expect, test } from 'vitest';
import { judgeTriage, triageQuestions } from '#advice/triage.ts';
import { parseSetCard } from '#record/set-card-file.ts';
import { setFacts } from '#record/set-facts.ts';
import { tamperedSetAnswers } from './triage-answers.ts';

test.each(['517', '523'])('the simulated TM-%s is sound, and far enough off for a full alignment', (model) => {
	const card = parseSetCard(readFileSync(`examples/thistlemoor-tm-${model}.json`, 'utf8'));
	const facts = card.ok ? setFacts(card.value) : card;
	if (!facts.ok) throw new Error(facts.words);
	const answers = tamperedSetAnswers(triageQuestions(facts.value));
	expect(judgeTriage(facts.value, answers)).toMatchObject({ kind: 'full alignment', mayGoOn: true });
});
