import { lastDigit, withinLastDigit } from '#record/last-digit.ts';
import type { Parsed } from '#record/parsed.ts';
import { parseQuantity } from '#record/quantity.ts';
import type { LevelReading } from '#record/reading.ts';
import { shownWords } from '#record/shown-words.ts';

/** The number in a reading as it was typed, commas between thousands taken out. */
function digitsOf(words: string): string {
	return /\d[\d,]*(?:\.\d*)?|\.\d+/.exec(words)?.[0].replaceAll(',', '') ?? '1';
}

/**
 * The level in a reading that a person typed, volts or decibels with their unit; a bare number or a word is refused.
 * Volts become decibels of one volt; decibels are relative, so that only their differences mean anything.
 * @param quantity what the meter shows
 */
export function typedReading(words: string, quantity: LevelReading['quantity'], atMs: number): Parsed<LevelReading> {
	const common = { kind: 'level', atMs, instrument: 'typed', trust: 'ok', words: words.trim(), quantity } as const;
	const digits = digitsOf(words);
	const level = parseQuantity('level', words);
	if (level.ok) {
		return {
			ok: true,
			value: {
				...common,
				reference: 'dBrel',
				levelDb: { value: level.value, uncertainty: lastDigit(digits) * withinLastDigit },
			},
		};
	}
	const voltage = parseQuantity('voltage', words);
	if (!voltage.ok)
		return {
			ok: false,
			words: `cannot read a level from "${shownWords(words)}": give volts or decibels with their unit, such as 2.4 V or -3 dB`,
		};
	if (voltage.value === 0)
		return { ok: false, words: '0 V has no level in decibels: make the signal a little stronger, or note it as words' };
	return {
		ok: true,
		value: {
			...common,
			reference: 'dBV',
			levelDb: {
				value: 20 * Math.log10(Math.abs(voltage.value)),
				uncertainty: ((20 / Math.LN10) * lastDigit(digits) * withinLastDigit) / Number(digits),
			},
		},
	};
}
