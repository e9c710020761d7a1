import { lastDigit, withinLastDigit } from './last-digit.ts';
import type { Parsed } from './parsed.ts';
import { parseQuantity, type QuantityKind } from './quantity.ts';
import { shownWords } from './shown-words.ts';
import type { TestReading } from './test-reading.ts';

/** Words that say that nothing was heard or the generator's most did not reach it. */
const nothing = /^(?:none|silent|nothing|not reached)$/i;

const kinds: Readonly<
	Record<TestReading['quantity'], { readonly kind: QuantityKind | 'share'; readonly give: string }>
> = {
	'input volts': { kind: 'voltage', give: 'such as 21 uV, or "not reached"' },
	'output volts': { kind: 'voltage', give: 'such as 0.4 V' },
	frequency: { kind: 'frequency', give: 'such as 1004.2 kc, or "none"' },
	'distortion share': { kind: 'share', give: 'such as 3.5 %' },
};

/** A value as it was typed, with the standard uncertainty of its last digit. */
interface TypedValue {
	readonly value: number;
	readonly uncertainty: number;
}

function typedValue(kind: QuantityKind | 'share', words: string): Parsed<TypedValue> {
	const digits = /\d[\d,]*(?:\.\d*)?|\.\d+/.exec(words)?.[0].replaceAll(',', '') ?? '1';
	const perUnit = (value: number): number => Math.abs(value) / Math.max(Number(digits), 1e-300);
	const withDigit = (value: number): TypedValue => ({
		value,
		uncertainty: Number(digits) === 0 ? 0 : lastDigit(digits) * perUnit(value) * withinLastDigit,
	});
	if (kind === 'share') {
		const share = /^(\d+(?:\.\d*)?|\.\d+)\s*%$/.exec(words.trim())?.[1];
		if (share === undefined || Number(share) > 100)
			return { ok: false, words: `cannot read a percentage from "${shownWords(words)}"` };
		return { ok: true, value: withDigit(Number(share) / 100) };
	}
	const parsed = parseQuantity(kind, words);
	if (!parsed.ok) return parsed;
	if (parsed.value < 0 || (kind === 'voltage' && parsed.value === 0))
		return {
			ok: false,
			words: `"${shownWords(words)}" is no level of a test: give volts above 0; where the meter shows nothing, the least that it can show`,
		};
	return { ok: true, value: withDigit(parsed.value) };
}

/**
 * A reading of a standard test as a person types it, with its unit: "21 uV at 1001.2 kc", "0.4 V", "3.5 %", "none". A bare number is refused.
 * @param asked which reading is typed, and its moment
 * @example testReadingOf({ moment: 'before', test: 'hum', ask: 'hum down', quantity: 'output volts' }, '4').ok // => false
 */
export function testReadingOf(
	asked: Pick<TestReading, 'moment' | 'test' | 'ask' | 'quantity'>,
	words: string,
): Parsed<TestReading> {
	const { kind, give } = kinds[asked.quantity];
	const common = { kind: 'test reading', ...asked, instrument: 'typed', words: words.trim().slice(0, 200) } as const;
	if (nothing.test(words.trim()) && (asked.quantity === 'input volts' || asked.quantity === 'frequency'))
		return { ok: true, value: { ...common, value: null, uncertainty: 0 } };
	const [level = '', at] = asked.quantity === 'input volts' ? words.split(/\s+at\s+|@/) : [words];
	const value = typedValue(kind, level);
	if (!value.ok) return { ok: false, words: `${value.words}; ${give}` };
	if (at === undefined) return { ok: true, value: { ...common, ...value.value } };
	const generator = typedValue('frequency', at);
	if (!generator.ok) return { ok: false, words: `${generator.words}; such as 21 uV at 1001.2 kc` };
	return { ok: true, value: { ...common, ...value.value, generatorHz: generator.value.value } };
}
