import { setCautions } from '#advice/cautions.ts';
import type { SetFacts } from '#record/set-facts.ts';
import type { PrintedCaution } from './printed-document.ts';
import { printedCautions } from './sheet-document.ts';

/** The set's first cautions, and always the last: local codes come first. */
export function foremostCautions(facts: SetFacts, most: number): readonly PrintedCaution[] {
	const all = printedCautions(setCautions(facts));
	return [...all.slice(0, Math.min(most, all.length - 1)), ...all.slice(-1)];
}
