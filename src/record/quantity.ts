import * as z from 'zod/mini';
import type { Parsed } from './parsed.ts';
import { shownWords } from './shown-words.ts';

/** Kinds of quantity that a person writes with a unit. */
export type QuantityKind =
	| 'frequency'
	| 'capacitance'
	| 'inductance'
	| 'resistance'
	| 'voltage'
	| 'power'
	| 'length'
	/** Along a ruler, from its nought on either way. */
	| 'place'
	| 'time'
	| 'level';

/** A unit as the trade writes it; `toSi` gives hertz, farads, henries, ohms, volts, watts, metres, seconds or decibels. */
interface Unit {
	readonly spellings: RegExp;
	readonly toSi: (value: number) => number;
}

interface Kind {
	readonly called: string;
	readonly units: readonly Unit[];
	readonly give: string;
	/** Whether nought and negative values make sense. */
	readonly least: 'above 0' | 'any';
}

const times = (factor: number) => (value: number) => value * factor;
/** m or M may stand for mega or milli: only spellings that the trade cannot misread are taken. */
const unit = (spellings: string, factor: number): Unit => ({
	spellings: new RegExp(`^(?:${spellings})$`),
	toSi: times(factor),
});

/** Metres of wavelength times hertz, f(kc) = 300,000 / m as on British dials: common practice of the trade, 0.07 % above the speed of light. */
export const metresTimesHz = 3e8;
const wavelength: Unit = { spellings: /^(?:m|metres?|meters?)$/, toSi: (metres) => metresTimesHz / metres };

/** Spellings of units of frequency that are read, as they are listed to a person: they stay as they are in whichever units is spoken. */
export const frequencySpellings = 'c, kc, kHz, Mc, MHz or metres';

const lengths: readonly Unit[] = [
	unit('mm|millimet(?:er|re)s?', 1e-3),
	unit('cm|centimet(?:er|re)s?', 1e-2),
	unit('m|met(?:er|re)s?', 1),
	unit('in|inch|inches|"|\u2033', 0.0254),
];

const kinds: Readonly<Record<QuantityKind, Kind>> = {
	frequency: {
		called: 'a frequency',
		least: 'above 0',
		give: `a number and ${frequencySpellings}, such as 455 kc`,
		units: [
			unit('c|c/s|cps|cycles?|[hH]z', 1),
			unit('[kK]c|KC|[kK]c/s|[kK]cs|[kK][hH]z|[kK]ilocycles?|[kK]ilohertz', 1e3),
			unit('[mM]c|MC|[mM]c/s|[mM]cs|[mM][hH]z|[mM]egacycles?|[mM]egahertz', 1e6),
			wavelength,
		],
	},
	capacitance: {
		called: 'a capacitance',
		least: 'above 0',
		give: 'a number and mmf, pF, nF or mfd, such as 365 mmf or 0.05 mfd',
		units: [
			unit('mmf|mmfd|MMF|MMFD|uuf|uuF|uufd|pF|pf|PF|pfd|puffs?', 1e-12),
			unit('nF|nf|NF', 1e-9),
			unit('mfd|mf|MFD|MF|Mfd|uF|uf|UF|ufd|UFD|microfarads?', 1e-6),
			unit('F|farads?', 1),
		],
	},
	inductance: {
		called: 'an inductance',
		least: 'above 0',
		give: 'a number and uH, mH or H, such as 240 uH',
		units: [
			unit('uH|uh|UH|microhenr(?:y|ies)', 1e-6),
			unit('mH|mh|millihenr(?:y|ies)', 1e-3),
			unit('H|henr(?:y|ies)', 1),
		],
	},
	resistance: {
		called: 'a resistance',
		least: 'above 0',
		give: 'a number and ohms, k or megohms, such as 470 ohms or 4k7',
		units: [
			unit('ohms?|Ohms?|R|r|\u03a9', 1),
			unit('[kK]|[kK]ohms?|[kK]\u03a9|[kK]ilohms?', 1e3),
			unit('M|[mM]eg|[mM]egohms?|M\u03a9|[mM]egs', 1e6),
		],
	},
	voltage: {
		called: 'a voltage',
		least: 'any',
		give: 'a number and V, mV or uV, such as 2.4 V',
		units: [
			unit('uV|uv|microvolts?', 1e-6),
			unit('mV|mv|millivolts?', 1e-3),
			unit('V|v|volts?', 1),
			unit('kV|kv', 1e3),
		],
	},
	power: {
		called: 'a power',
		least: 'above 0',
		give: 'a number and W or mW, such as 50 mW',
		units: [unit('mW|mw|milliwatts?', 1e-3), unit('W|w|watts?', 1)],
	},
	length: {
		called: 'a length',
		least: 'above 0',
		give: 'a number and mm, cm or inches, such as 150 mm or 1 1/4 in',
		units: lengths,
	},
	place: {
		called: 'a place',
		least: 'any',
		give: 'a number and mm, cm or inches, such as 12 mm',
		units: lengths,
	},
	time: {
		called: 'a time',
		least: 'above 0',
		give: 'a number and s, ms or min, such as 0.1 s',
		units: [unit('ms', 1e-3), unit('s|sec|seconds?', 1), unit('min|minutes?', 60), unit('h|hours?', 3600)],
	},
	level: {
		called: 'a level',
		least: 'any',
		give: 'a number and dB, such as 6 dB',
		units: [unit('dB|db|DB|decibels?', 1)],
	},
};

const numberPattern = String.raw`[+-]?(?:\d{1,3}(?:,\d{3})+|\d+)?(?:\.\d*)?(?:[eE][+-]?\d+)?`;
const wholeQuantity = new RegExp(String.raw`^(${numberPattern})\s*(\D.*)?$`);
/** 4k7, 2M2, 4R7: the letter stands for the decimal point. */
const letterForPoint = /^(\d+)([kKMRr])(\d+)$/;
/** 1 1/4 in, 3/8": whole inches and a fraction of one. */
const fractionOfInch = /^([+-]?)(?:(\d+)[ -])?(\d+)\/([1-9]\d*)\s*(in|inch|inches|"|\u2033)$/;

/** Number and unit of a quantity in one of the ways in which its kind alone is written; `null` where it is in none. */
function written(kindName: QuantityKind, text: string): readonly [digits: string, spelling: string] | null {
	if (kindName === 'resistance') {
		const [, whole, letter, rest] = letterForPoint.exec(text) ?? [];
		return letter === undefined ? null : [`${whole}.${rest}`, letter];
	}
	if (kindName !== 'length' && kindName !== 'place') return null;
	const [, sign, whole = '0', over, under, inch] = fractionOfInch.exec(text) ?? [];
	return inch === undefined ? null : [`${sign}${Number(whole) + Number(over) / Number(under)}`, inch];
}

/** Micro signs, minus signs and spaces that keyboards and scans produce, made plain. */
function plain(words: string): string {
	return words
		.trim()
		.replace(/[\u00b5\u03bc]/g, 'u')
		.replace(/[\u2212\u2013]/g, '-')
		.replace(/[\u00a0\u2009\u202f]/g, ' ');
}

function refusal(kind: Kind, words: string): Parsed<number> {
	return { ok: false, words: `cannot read ${kind.called} from "${shownWords(words)}": give ${kind.give}` };
}

/**
 * The value in SI units (decibels for a level) of a quantity written as the trade writes it; a bare number is refused.
 * Metres of wavelength are turned into hertz. A comma stands between thousands, a point before decimals.
 * @param words at most 100 characters
 * @example parseQuantity('frequency', '1,400 kc') // => { ok: true, value: 1400000 }
 */
export function parseQuantity(kindName: QuantityKind, words: string): Parsed<number> {
	const kind = kinds[kindName];
	const text = plain(words);
	if (text.length > 100) return refusal(kind, words);
	const [, digits = '', spelling = ''] = ['', ...(written(kindName, text) ?? wholeQuantity.exec(text)?.slice(1) ?? [])];
	const found = kind.units.find(({ spellings }) => spellings.test(spelling.trim()));
	if (!found || !/\d/.test(digits)) return refusal(kind, words);
	const value = found.toSi(Number(digits.replaceAll(',', '')));
	if (!Number.isFinite(value) || (kind.least === 'above 0' && value <= 0)) return refusal(kind, words);
	return { ok: true, value };
}

/**
 * A checked string that holds a quantity of this kind with its unit; the words are kept as typed.
 * @example quantity('capacitance').safeParse('365').success // => false
 */
export function quantity(kind: QuantityKind) {
	return z.string().check(
		z.maxLength(100),
		z.superRefine((words, context) => {
			const parsed = parseQuantity(kind, words);
			if (!parsed.ok) context.addIssue({ code: 'custom', message: parsed.words });
		}),
	);
}

/**
 * SI value of a quantity that was checked before, as every quantity of a set card is.
 * @throws when it was not
 * @example siValue('resistance', '4k7') // => 4700
 */
export function siValue(kind: QuantityKind, words: string): number {
	const parsed = parseQuantity(kind, words);
	if (!parsed.ok) throw new Error(`invalid ${kind}: ${words}, expected a quantity that was checked`);
	return parsed.value;
}
