import type { Parsed } from '#record/parsed.ts';
import { parseQuantity } from '#record/quantity.ts';
import type { LevelReading } from '#record/reading.ts';

/** Half of a unit in the last digit that was typed, as a share of the value: what the reading may be off by. */
function resolution(words: string): number {
	const digits = /\d[\d,]*(?:\.\d*)?|\.\d+/.exec(words)?.[0].replaceAll(',', '') ?? '1';
	const decimals = digits.includes('.') ? (digits.split('.')[1]?.length ?? 0) : 0;
	const value = Number(digits);
	return value === 0 ? 1 : (0.5 * 10 ** -decimals) / value;
}

/** Standard uncertainty of a value that may lie anywhere within its last digit: half the digit over the root of three. */
const rectangular = 1 / Math.sqrt(3);

/**
 * The level in a reading that a person typed, volts or decibels with their unit; a bare number or a word is refused.
 * Volts become decibels of one volt; decibels are relative, so that only their differences mean anything.
 * @param quantity what the meter shows
 */
export function typedReading(words: string, quantity: LevelReading['quantity'], atMs: number): Parsed<LevelReading> {
	const common = { kind: 'level', atMs, instrument: 'typed', trust: 'ok', words: words.trim(), quantity } as const;
	const level = parseQuantity('level', words);
	if (level.ok) {
		const decimals = /\.(\d+)/.exec(words)?.[1]?.length ?? 0;
		return {
			ok: true,
			value: {
				...common,
				reference: 'dBrel',
				levelDb: { value: level.value, uncertainty: 0.5 * 10 ** -decimals * rectangular },
			},
		};
	}
	const voltage = parseQuantity('voltage', words);
	if (!voltage.ok)
		return {
			ok: false,
			words: `cannot read a level from "${words.slice(0, 40)}": give volts or decibels with their unit, such as 2.4 V or -3 dB`,
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
				uncertainty: (20 / Math.LN10) * resolution(words) * rectangular,
			},
		},
	};
}
