import { readFileSync } from 'node:fs';
import { makeSheet } from '#advice/sheet.ts';
import type { Sheet, SheetOptions } from '#advice/sheet-step.ts';
import type { SetCard } from '#record/set-card.ts';
import { parseSetCard } from '#record/set-card-file.ts';
import { setFacts } from '#record/set-facts.ts';
import { InputFault } from './command.ts';

/** The card in a file and the sheet for it; an InputFault when either cannot be had. */
export function sheetFor(path: string, options: SheetOptions): { card: SetCard; sheet: Sheet } {
	let text: string;
	try {
		text = readFileSync(path, 'utf8');
	} catch (error) {
		throw new InputFault(`cannot open ${path}: ${(error as NodeJS.ErrnoException).code}; give the path of a set card`);
	}
	const card = parseSetCard(text);
	if (!card.ok) throw new InputFault(`${path}: ${card.words}`);
	const facts = setFacts(card.value);
	if (!facts.ok) throw new InputFault(`${path}: ${facts.words}`);
	const sheet = makeSheet(facts.value, options);
	if (!sheet.ok) throw new InputFault(`${path}: ${sheet.words}`);
	return { card: card.value, sheet: sheet.value };
}
