import { readdirSync, readFileSync } from 'node:fs';
import fc from 'fast-check';
import { expect, test } from 'vitest';
import {
	genericInstrument,
	instrumentJsonSchema,
	parseInstrumentDescription,
	type RangedVerb,
	settingLine,
} from './instrument-description.ts';

const changed = (change: (description: { generator: Record<string, object> }) => void): string => {
	const copy = JSON.parse(JSON.stringify(genericInstrument)) as { generator: Record<string, object> };
	change(copy);
	const parsed = parseInstrumentDescription(JSON.stringify(copy));
	return parsed.ok ? 'ok' : parsed.words;
};

test('the examples and the generic description are whole', () => {
	const folder = 'examples/instruments';
	const names = readdirSync(folder);
	expect(names.length).toBeGreaterThanOrEqual(2);
	for (const name of names)
		expect(parseInstrumentDescription(readFileSync(`${folder}/${name}`, 'utf8'))).toMatchObject({ ok: true });
	expect(parseInstrumentDescription(JSON.stringify(genericInstrument))).toEqual({ ok: true, value: genericInstrument });
});

test('a description that cannot be used is refused with its place', () => {
	expect(parseInstrumentDescription('{').ok).toBe(false);
	expect(changed((copy) => Object.assign(copy, { colour: 'green' }))).toContain('"colour"');
	const verb = (change: object) => changed((copy) => Object.assign(copy.generator['set frequency'] as object, change));
	expect(verb({ most: 1 })).toContain('generator, set frequency');
	expect(verb({ send: 'FREQ' })).toContain('generator, set frequency, send');
	// A second line hidden in a verb would go out unseen.
	expect(verb({ send: 'FREQ {}\n*RST' })).not.toBe('ok');
	expect(verb({ unit: 'furlongs' })).toContain('unit');
});

// 0 dBm is a milliwatt: 0.22361 V across 50 ohms, and twice that with the load taken off. [frenzel] has P = V^2 / R; the doubling is the matched divider's.
test('levels go out in the unit of the instrument', () => {
	const level = (unit: RangedVerb['unit'], levelV: number): string => {
		const line = settingLine({ send: '{}', unit, least: -1e3, most: 1e3, digits: 4 }, levelV, 'level');
		return line.ok ? line.value : line.words;
	};
	expect(level('dBm at 50 ohms', 0.447214)).toBe('0.0000');
	expect(level('dBm at 50 ohms', 2e-6 * Math.sqrt(50e-3))).toBe('-120.0000');
	expect(level('V at 50 ohms', 0.447214)).toBe('0.2236');
	expect(level('V peak to peak at 50 ohms', 0.447214)).toBe('0.6325');
	expect(level('V open circuit', 0.25)).toBe('0.2500');
});

test('a value goes out as it is when it is in range, and not at all when it is not', () => {
	const verb: RangedVerb = { send: 'FREQ {}', unit: 'kHz', least: 100, most: 2000 };
	fc.assert(
		fc.property(fc.double({ min: 0, max: 5e6, noNaN: true }), (frequencyHz) => {
			const line = settingLine(verb, frequencyHz, 'frequency');
			expect(line.ok).toBe(frequencyHz / 1e3 >= 100 && frequencyHz / 1e3 <= 2000);
			if (line.ok) expect(Number(line.value.slice(5)) * 1e3).toBeCloseTo(frequencyHz, 2);
			else expect(line.words).toContain('nothing was sent');
		}),
	);
	expect(settingLine(verb, Number.NaN, 'frequency').ok).toBe(false);
});

test('a value that the digits of a description would make another one of is not sent', () => {
	const level: RangedVerb = { send: 'VOLT {}', unit: 'V open circuit', least: 0, most: 1, digits: 3 };
	expect(settingLine(level, 0.25, 'level')).toEqual({ ok: true, value: 'VOLT 0.250' });
	// 25 uV would go out as no signal at all.
	expect(settingLine(level, 25e-6, 'level')).toMatchObject({ ok: false });
	const frequency: RangedVerb = { send: 'FREQ {}', unit: 'kHz', least: 100, most: 2000, digits: 0 };
	expect(settingLine(frequency, 455e3, 'frequency').ok).toBe(true);
	const refused = settingLine(frequency, 455.4e3, 'frequency');
	expect(refused.ok ? '' : refused.words).toBe(
		'frequency: 455.4 kHz would go out as 455: give its description more "digits"; nothing was sent',
	);
	// Steps of a decibel are what some attenuators have.
	expect(settingLine({ ...level, unit: 'dBm at 50 ohms', least: -130, most: 0, digits: 0 }, 1e-4, 'level').ok).toBe(
		true,
	);
});

test('the published form is the one that the program checks with', () => {
	expect(JSON.parse(readFileSync('docs/instrument.schema.json', 'utf8'))).toEqual(
		JSON.parse(JSON.stringify(instrumentJsonSchema())),
	);
});
