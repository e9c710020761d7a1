import fc from 'fast-check';
import { expect, test } from 'vitest';
import { languageOf } from './language.ts';
import { parseQuantity, type QuantityKind, quantity } from './quantity.ts';

const read: readonly [QuantityKind, string, number][] = [
	['frequency', '455kc', 455e3],
	['frequency', '455 kc/s', 455e3],
	['frequency', '455 KC', 455e3],
	['frequency', '1.4Mc', 1.4e6],
	['frequency', '1,400 kc', 1.4e6],
	['frequency', '400c', 400],
	['frequency', '1000 kHz', 1e6],
	// f(kc) = 300,000 / metres, as British dials are printed: common practice.
	['frequency', '300 metres', 1e6],
	['capacitance', '365mmf', 365e-12],
	['capacitance', '365 uuF', 365e-12],
	['capacitance', '365 \u00b5\u00b5F', 365e-12],
	['capacitance', '0.05mfd', 0.05e-6],
	['capacitance', '.05 \u03bcF', 0.05e-6],
	['inductance', '240uH', 240e-6],
	['resistance', '4k7', 4700],
	['resistance', '2M2', 2.2e6],
	['resistance', '3.2 ohms', 3.2],
	['resistance', '10 megohms', 10e6],
	['voltage', '2.4 V', 2.4],
	['voltage', '-6.5 V', -6.5],
	['voltage', '13 uV', 13e-6],
	['level', '-3 dB', -3],
	['length', '150mm', 0.15],
	// An inch is 25.4 mm exactly: international yard and pound agreement of 1959.
	['length', '1/16 inch', 0.0015875],
	['length', '1 1/4 in', 0.03175],
	['length', '3/8"', 0.009525],
	['place', '-1-1/2 in', -0.0381],
	['power', '50 mW', 0.05],
];

test('quantities are read as the trade writes them', () => {
	for (const [kind, words, value] of read) {
		const parsed = parseQuantity(kind, words);
		expect(parsed.ok, words).toBe(true);
		if (parsed.ok) expect(Math.abs(parsed.value - value), words).toBeLessThanOrEqual(Math.abs(value) * 1e-12);
	}
});

test('a bare number or nonsense is refused with what to give instead', () => {
	const wrong: readonly [QuantityKind, string][] = [
		['frequency', '600'],
		['voltage', '3'],
		['voltage', '3..2 V'],
		['voltage', '-'],
		['voltage', '1e400'],
		['voltage', '1e400 V'],
		['frequency', '-455 kc'],
		['frequency', '0 kc'],
		['frequency', '14,00 kc'],
		['frequency', '455 kx'],
		['capacitance', 'mmf'],
		['resistance', '1/2 k'],
		['length', '1/0 inch'],
		['length', '1/16 mm'],
		['length', '1/16'],
		['frequency', ''],
	];
	for (const [kind, words] of wrong) {
		const parsed = parseQuantity(kind, words);
		expect(parsed.ok, words).toBe(false);
		if (!parsed.ok) expect(parsed.words).toMatch(/^cannot read an? .*: give a number and /s);
	}
});

test('any number with a unit is read to the last digit that it carries', () => {
	fc.assert(
		fc.property(fc.double({ min: 1e-3, max: 1e6, noNaN: true }), (value) => {
			const parsed = parseQuantity('frequency', `${value} kc`);
			return parsed.ok && Math.abs(parsed.value / (value * 1e3) - 1) < 1e-12;
		}),
	);
});

test('no text makes the reader throw or give something that is not finite', () => {
	fc.assert(
		fc.property(fc.string({ unit: 'binary' }), (words) => {
			const parsed = parseQuantity('voltage', words);
			return parsed.ok ? Number.isFinite(parsed.value) : parsed.words.length > 0;
		}),
	);
});

test('a quantity in a card says what is wrong with it', () => {
	const result = quantity('frequency').safeParse('600');
	expect(result.success).toBe(false);
	expect(result.error?.issues[0]?.message).toBe(
		'cannot read a frequency from "600": give a number and c, kc, kHz, Mc, MHz or metres, such as 455 kc',
	);
});

// 1,500 m and 200 kc are one station on every British dial: f(kc) = 300,000 / m, common practice.
test('a wavelength is printed in the metres in which a dial of the trade shows it', () => {
	const { dial } = languageOf('UK', 'm');
	for (const metres of [1500, 1000, 300, 49, 19]) {
		const parsed = parseQuantity('frequency', `${metres} m`);
		expect(parsed.ok && dial(parsed.value)).toContain(`(${metres} m)`);
	}
});
