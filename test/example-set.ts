import { readdirSync, readFileSync } from 'node:fs';
import { makeSheet } from '../src/advice/sheet.ts';
import { usualOptions } from '../src/advice/sheet-options.ts';
import type { Sheet } from '../src/advice/sheet-step.ts';
import type { Language } from '../src/record/language.ts';
import type { SetCard } from '../src/record/set-card.ts';
import { parseSetCard } from '../src/record/set-card-file.ts';
import { type SetFacts, setFacts } from '../src/record/set-facts.ts';

/** The set that most tests and measurements work on. */
export const demoSet = 'thistlemoor-tm-517';

/** Ids of all example sets. */
export const exampleSets = (): readonly string[] =>
	readdirSync('examples').flatMap((file) => /^(.+)\.json$/.exec(file)?.[1] ?? []);

/** An example card as its file has it. */
export const exampleText = (set: string = demoSet): string => readFileSync(`examples/${set}.json`, 'utf8');

/** An example card. */
export function exampleCard(set: string = demoSet): SetCard {
	const card = parseSetCard(exampleText(set));
	if (!card.ok) throw new Error(card.words);
	return card.value;
}

/** What a card says, for one that is right. */
export function factsOf(card: SetCard): SetFacts {
	const facts = setFacts(card);
	if (!facts.ok) throw new Error(facts.words);
	return facts.value;
}

/** The sheet of a set, for one that has one. */
export function sheetOf(facts: SetFacts, options = usualOptions, language?: Language): Sheet {
	const sheet = makeSheet(facts, options, language);
	if (!sheet.ok) throw new Error(sheet.words);
	return sheet.value;
}
