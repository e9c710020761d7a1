import { makeSheet } from '#advice/sheet.ts';
import type { Sheet, SheetOptions } from '#advice/sheet-step.ts';
import type { SetCard } from '#record/set-card.ts';
import { parseSetCard } from '#record/set-card-file.ts';
import { type SetFacts, setFacts } from '#record/set-facts.ts';
import { InputFault } from './command.ts';
import { readInput } from './input.ts';

/** The card in a file and its facts; an InputFault when they cannot be had. */
export function factsFor(path: string): SetFacts {
	const card = parseSetCard(readInput(path, 'the path of a set card').toString('utf8'));
	if (!card.ok) throw new InputFault(`${path}: ${card.words}`);
	const facts = setFacts(card.value);
	if (!facts.ok) throw new InputFault(`${path}: ${facts.words}`);
	return facts.value;
}

/** The card in a file, its facts and the sheet for it; an InputFault when either cannot be had. */
export function sheetFor(path: string, options: SheetOptions): { card: SetCard; facts: SetFacts; sheet: Sheet } {
	const facts = factsFor(path);
	const sheet = makeSheet(facts, options);
	if (!sheet.ok) throw new InputFault(`${path}: ${sheet.words}`);
	return { card: facts.card, facts, sheet: sheet.value };
}
