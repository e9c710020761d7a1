import { frequencyUnits, wordsNames } from '#record/language.ts';
import type { Parsed } from '#record/parsed.ts';
import { shownWords } from '#record/shown-words.ts';
import type { SheetOptions } from './sheet-step.ts';

/** What may be chosen for each option of a sheet; the first is the usual choice. */
export const sheetChoices: { readonly [Key in keyof SheetOptions]: readonly SheetOptions[Key][] } = {
	generator: ['modulated', 'unmodulated', 'none'],
	attenuator: ['fine', 'coarse'],
	coupling: ['direct', 'loose'],
	meter: ['tone', 'AVC volts', 'AC volts'],
	lowEndSchool: ['dial true', 'greatest output'],
	words: wordsNames,
	units: frequencyUnits,
};

/** The usual choice: a modulated generator with a fine attenuator, joined by its leads, the tone as meter, a true dial, American words, kilocycles. */
export const usualOptions: SheetOptions = Object.fromEntries(
	Object.entries(sheetChoices).map(([key, choices]) => [key, choices[0]]),
) as unknown as SheetOptions;

/**
 * Options of a sheet from words that came from outside, by name; what is not given is the usual choice.
 * @param given names that are no options are passed over
 */
export function sheetOptions(given: Readonly<Record<string, unknown>>): Parsed<SheetOptions> {
	const chosen: Record<string, unknown> = { ...usualOptions };
	for (const [key, choices] of Object.entries(sheetChoices)) {
		const words = given[key];
		if (words === undefined) continue;
		if (!(choices as readonly unknown[]).includes(words))
			return {
				ok: false,
				words: `${key}: cannot use "${shownWords(String(words))}": give ${choices.map((choice) => `"${choice}"`).join(' or ')}`,
			};
		chosen[key] = words;
	}
	return { ok: true, value: chosen as unknown as SheetOptions };
}
