import type { Caution } from '#advice/caution.ts';
import { setCautions } from '#advice/cautions.ts';
import type { Language } from '#record/language.ts';
import type { SetFacts } from '#record/set-facts.ts';
import type { PrintedCaution } from './printed-document.ts';

/** Cautions as they are printed. */
export function printedCautions(cautions: readonly Caution[], { say }: Language): readonly PrintedCaution[] {
	const signs = { danger: say`Danger`, care: say`Care` };
	return cautions.map(({ weight, words }) => ({ weight, sign: signs[weight], words }));
}

/** The set's first cautions, and always the last: local codes come first. */
export function foremostCautions(facts: SetFacts, most: number, language: Language): readonly PrintedCaution[] {
	const all = printedCautions(setCautions(facts, language), language);
	return [...all.slice(0, Math.min(most, all.length - 1)), ...all.slice(-1)];
}
