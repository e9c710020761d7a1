import fc from 'fast-check';
import { expect, test } from 'vitest';
import { typedReading } from './typed-reading.ts';

// Closed form: 2.4 V is 20 log10(2.4) = 7.604 dB of a volt; half its last digit is 0.05 V, 0.181 dB, and 0.104 dB as a standard uncertainty.
test('volts become decibels that know no more than was typed', () => {
	const reading = typedReading('2.4 V', 'AC volts', 5);
	expect(reading.ok && reading.value.levelDb?.value).toBeCloseTo(7.604, 3);
	expect(reading.ok && reading.value.levelDb?.uncertainty).toBeCloseTo(0.1045, 3);
	expect(reading.ok && reading.value).toMatchObject({ reference: 'dBV', words: '2.4 V', atMs: 5 });
	const finer = typedReading('2.40 V', 'AC volts', 5);
	expect(finer.ok && finer.value.levelDb?.uncertainty).toBeCloseTo(0.01045, 4);
});

test('AVC volts are below nought and still have a level; decibels are taken as they are', () => {
	const avc = typedReading('-6.5 V', 'AVC volts', 0);
	expect(avc.ok && avc.value.levelDb?.value).toBeCloseTo(16.258, 3);
	const level = typedReading('-3 dB', 'tone', 0);
	expect(level.ok && level.value).toMatchObject({ reference: 'dBrel', levelDb: { value: -3 } });
});

test('a word, a bare number and nonsense are no reading', () => {
	for (const words of ['a bit louder', '3', '3..2 V', '-', '1e400', '1e400 V', '0 V', '']) {
		const reading = typedReading(words, 'AC volts', 0);
		expect(reading.ok, words).toBe(false);
		if (!reading.ok) expect(reading.words.length).toBeGreaterThan(20);
	}
});

test('whatever is typed is a finite level with its uncertainty, or is refused with what to give', () => {
	const units = ['', ' V', 'V', ' mV', 'uV', ' \u00b5V', ' dB', 'dBV', ' volts'];
	const nearly = fc
		.tuple(fc.string({ unit: fc.constantFrom(...'0123456789.,-+e '), maxLength: 30 }), fc.constantFrom(...units))
		.map(([number, unit]) => `${number}${unit}`);
	fc.assert(
		fc.property(fc.oneof(nearly, fc.string({ unit: 'binary' })), (words) => {
			const reading = typedReading(words, 'AC volts', 0);
			if (!reading.ok) return reading.words.length > 20;
			const { levelDb } = reading.value;
			return levelDb !== null && Number.isFinite(levelDb.value) && (levelDb.uncertainty ?? Number.NaN) >= 0;
		}),
		{ numRuns: 300 },
	);
});
