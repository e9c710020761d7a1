import { expect, test } from 'vitest';
import { testReadingOf } from './test-words.ts';

const input = { moment: 'before', test: 'sensitivity', ask: 'sensitivity 1000 kc', quantity: 'input volts' } as const;

test('an input and where the generator stands are read from one line', () => {
	const reading = testReadingOf(input, '21 uV at 1001.2 kc');
	expect(reading).toMatchObject({
		ok: true,
		value: { value: 21e-6, generatorHz: 1001.2e3, words: '21 uV at 1001.2 kc' },
	});
	// The last digit is a microvolt: half of it over the root of three.
	expect(reading.ok && reading.value.uncertainty).toBeCloseTo(0.2887e-6, 9);
});

test('nothing heard is a reading; bare numbers, words and levels of nought are refused with what to give', () => {
	expect(testReadingOf(input, 'not reached')).toMatchObject({ ok: true, value: { value: null } });
	for (const words of ['21', 'loud', '0 V', '-3 V', '21 uV at noon', '\u0000', '9'.repeat(500)])
		expect(testReadingOf(input, words)).toMatchObject({ ok: false, words: expect.stringMatching(/such as/) });
});

test('a share of distortion is typed in per cent', () => {
	const asked = { ...input, quantity: 'distortion share' } as const;
	expect(testReadingOf(asked, '3.5 %')).toMatchObject({ ok: true, value: { value: 0.035 } });
	expect(testReadingOf(asked, '3.5').ok).toBe(false);
	expect(testReadingOf(asked, '300 %').ok).toBe(false);
});
