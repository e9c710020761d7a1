import type { Parsed } from './parsed.ts';
import { metresTimesHz } from './quantity.ts';
import { frequencyWords } from './quantity-words.ts';
import { shownWords } from './shown-words.ts';

/** How frequencies are written: as the trade wrote them, as today, or as today with wavelengths beside the places of the dial. */
export const frequencyUnits = ['kc', 'kHz', 'm'] as const;
/** One of the ways in which frequencies are written. */
export type FrequencyUnits = (typeof frequencyUnits)[number];

/** One language: its tag for typesetter and browser, and each sentence of the program in it, places written {0}, {1}. */
interface Tongue {
	readonly tag: string;
	/** Whose way of writing days. */
	readonly days: string;
	readonly sentence: (english: string) => string;
}

const americanToBritish: readonly (readonly [RegExp, string])[] = [
	[/\bantenna\b/g, 'aerial'],
	[/\bAntenna\b/g, 'Aerial'],
	[/\bantennas\b/g, 'aerials'],
	[/\btube\b/g, 'valve'],
	[/\bTube\b/g, 'Valve'],
	[/\btubes\b/g, 'valves'],
	[/\bTubes\b/g, 'Valves'],
	[/\bB-plus\b/g, 'HT'],
	[/\bconverter\b/g, 'frequency changer'],
	[/\bConverter\b/g, 'Frequency changer'],
	[/\bground lead\b/g, 'earth lead'],
	[/\bground\b(?=:|$|,| (?:every|is|with)\b)/g, 'earth'],
	[/\bGround\b/g, 'Earth'],
	[/\bgrounded\b/g, 'earthed'],
	[/\bplate\b/g, 'anode'],
	[/\bpointer\b/g, 'cursor'],
	[/\bPointer\b/g, 'Cursor'],
	[/\bvoice coil\b/g, 'speech coil'],
	[/\bVoice coil\b/g, 'Speech coil'],
];

/** The languages that documents can be had in, by the name that is chosen; another one is one more entry, with the sentences of docs/sentences.json said in it. */
const tongues = {
	US: { tag: 'en-US', days: 'en-GB', sentence: (english) => english },
	/** American sentences, said in British words where the trade differs. */
	UK: {
		tag: 'en-GB',
		days: 'en-GB',
		sentence: (english) =>
			americanToBritish.reduce((words, [american, british]) => words.replace(american, british), english),
	},
} as const satisfies Readonly<Record<string, Tongue>>;

/** Whose trade words are used. */
export type WordsName = keyof typeof tongues;
/** Names of all of them, the usual one first. */
export const wordsNames = Object.keys(tongues) as readonly WordsName[];

/** Units in a sentence of the program; figures and names that a person typed never come here. */
function unitsSaid(sentence: string, cycles: 'c' | 'c/s' | 'Hz'): string {
	if (cycles === 'c') return sentence;
	return sentence
		.replace(/(?<![A-Za-z/])([kM])c(?:\/s)?(?![A-Za-z])/g, (_, thousands: string) => thousands + cycles)
		.replace(/(?<=[\d}] )c(?:\/s)?(?![A-Za-z])/g, cycles);
}

/** How a document speaks. */
export interface Language {
	readonly tag: string;
	/** A sentence of the program; what stands in its places goes in as it is. */
	readonly say: (sentence: TemplateStringsArray, ...places: readonly (string | number)[]) => string;
	/** A word or a text of the program that stands ready, such as the stage of an adjuster; names that a person typed and that were put into it stay as they are. */
	readonly term: (english: string, typed?: readonly string[]) => string;
	/** A figure with its unit, such as `+1.2 kc`: its unit as it was chosen; what has words in it is a sentence or a text. */
	readonly figure: (words: string) => string;
	/** A frequency. */
	readonly frequency: (frequencyHz: number) => string;
	/** A place of the dial, with its wavelength where that is wanted. */
	readonly dial: (dialHz: number) => string;
	/** A day in the reader's own time: 1 March 2026. */
	readonly day: (atMs: number) => string;
}

/** A text with a place for each name that stands in it as a word of its own, the longest names first, and the names. */
function parted(english: string, names: readonly string[]): [string, readonly string[]] {
	const found: string[] = [];
	const longestFirst = [...names].filter((name) => name !== '').sort((one, other) => other.length - one.length);
	if (longestFirst.length === 0) return [english, found];
	const anyName = longestFirst.map((name) => name.replace(/[.*+?^${}()|[\]\\]/g, '\\$&')).join('|');
	const pattern = new RegExp(`(?<![\\p{L}\\p{N}])(?:${anyName})(?![\\p{L}\\p{N}])`, 'gu');
	return [english.replace(pattern, (name) => `{${found.push(name) - 1}}`), found];
}

/** A language that writes frequencies in these units. */
export function spoken(tongue: Tongue, units: FrequencyUnits): Language {
	const cycles = units === 'kc' ? (tongue.tag === tongues.UK.tag ? 'c/s' : 'c') : 'Hz';
	const said = (english: string): string => unitsSaid(tongue.sentence(english), cycles);
	const figure = (words: string): string => unitsSaid(words, cycles);
	const frequency = (frequencyHz: number): string => figure(frequencyWords(frequencyHz, 'US'));
	const filled = (english: string, places: readonly (string | number)[]): string =>
		said(english).replace(/\{(\d+)\}/g, (place, at: string) => String(places[Number(at)] ?? place));
	return {
		tag: tongue.tag,
		say: (sentence, ...places) =>
			filled(
				sentence.reduce((whole, part, at) => `${whole}{${at - 1}}${part}`),
				places,
			),
		term: (english, typed = []) => filled(...parted(english, typed)),
		figure,
		frequency,
		dial: (dialHz) =>
			units === 'm' ? `${frequency(dialHz)} (${Math.round(metresTimesHz / dialHz)} m)` : frequency(dialHz),
		day: (atMs) => new Date(atMs).toLocaleDateString(tongue.days, { dateStyle: 'long' }),
	};
}

/**
 * The language of these trade words and units.
 * @example languageOf('UK', 'm').dial(1e6) // => '1,000 kHz (300 m)'
 */
export function languageOf(words: WordsName, units: FrequencyUnits): Language {
	return spoken(tongues[words], units);
}

/**
 * Whether two texts of the program say the same, each in whichever words and units it was said: one that was kept with a run, and one of today.
 * @example saysSame('grid of the tube', 'grid of the valve') // => true
 */
export function saysSame(one: string, other: string): boolean {
	return wordsNames.some((words) => {
		const { term } = languageOf(words, 'kHz');
		return term(one) === term(other);
	});
}

/** Names to choose from: "kc, kHz or m". */
const oneOf = (names: readonly string[]): string => `${names.slice(0, -1).join(', ')} or ${names.at(-1)}`;

/** The language of names that came from outside; what is not given is the usual one. */
export function languageNamed(words: string | undefined, units: string | undefined): Parsed<Language> {
	const chosen = wordsNames.find((name) => name === (words ?? wordsNames[0]));
	if (chosen === undefined)
		return { ok: false, words: `words: cannot use "${shownWords(words ?? '')}": give ${oneOf(wordsNames)}` };
	const written = frequencyUnits.find((name) => name === (units ?? frequencyUnits[0]));
	if (written === undefined)
		return { ok: false, words: `units: cannot use "${shownWords(units ?? '')}": give ${oneOf(frequencyUnits)}` };
	return { ok: true, value: languageOf(chosen, written) };
}

/** American trade words, kilocycles. */
export const usualLanguage: Language = languageOf('US', 'kc');
