import type { SheetOptions } from '#advice/sheet-step.ts';
import { type FrequencyUnits, frequencyUnits, languageOf, type WordsName, wordsNames } from '#record/language.ts';

type Chosen = Pick<SheetOptions, 'words' | 'units'>;

/** What this browser has kept under a name, as long as it is one of these; else the first, which is usual. */
const kept = <Name extends string>(name: string, names: readonly Name[]): Name => {
	const found = names.find((one) => one === localStorage.getItem(`report ${name}`));
	return found ?? (names[0] as Name);
};

/** Whose words and which units the person chose: one choice for screens and paper, kept in this browser. */
class Speech {
	#words: WordsName = $state(kept('words', wordsNames));
	#units: FrequencyUnits = $state(kept('units', frequencyUnits));
	readonly chosen: Chosen = $derived({ words: this.#words, units: this.#units });
	readonly language = $derived(languageOf(this.#words, this.#units));

	/** Takes a new choice and keeps it. */
	choose({ words, units }: Chosen): void {
		[this.#words, this.#units] = [words, units];
		localStorage.setItem('report words', words);
		localStorage.setItem('report units', units);
	}
}

/** The page's own. */
export const speech = new Speech();
