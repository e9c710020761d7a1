import { expect, test, vi } from 'vitest';
import type { Parsed } from '#record/parsed.ts';
import type { LevelReading } from '#record/reading.ts';
import { readRemoteMeter } from './remote-meter.ts';

const level = (value: number): Parsed<LevelReading> => ({
	ok: true,
	value: {
		kind: 'level',
		atMs: 0,
		instrument: 'voltmeter at 192.168.1.21:5025',
		levelDb: { value, uncertainty: 0.1 },
		reference: 'dBV',
		quantity: 'AC volts',
		trust: 'ok',
	},
});

test('a meter of the host is read one reading after the other, until it is closed', async () => {
	let asked = 0;
	const heard: number[] = [];
	const meter = await readRemoteMeter(async () => level(-asked++), {
		reading: ({ levelDb }) => heard.push(levelDb?.value ?? Number.NaN),
		failure: () => undefined,
	});
	if (!meter.ok) throw new Error(meter.words);
	expect(meter.value).toMatchObject({ name: 'voltmeter at 192.168.1.21:5025', hearsRoom: false });
	await vi.waitFor(() => expect(heard.length).toBeGreaterThan(2));
	await meter.value.close();
	const before = asked;
	await new Promise((next) => setTimeout(next, 250));
	expect(asked).toBeLessThanOrEqual(before + 1);
	expect(heard).toEqual(heard.map((_, place) => -1 - place));
});

test('a meter that is not there is not opened, and one that fails later says why once', async () => {
	const said: string[] = [];
	const listener = { reading: () => undefined, failure: (words: string) => said.push(words) };
	expect(await readRemoteMeter(async () => ({ ok: false, words: 'no answer' }), listener)).toEqual({
		ok: false,
		words: 'no answer',
	});
	let asked = 0;
	const meter = await readRemoteMeter(
		async () => (asked++ < 2 ? level(-3) : { ok: false, words: 'it closed the connection' }),
		listener,
	);
	expect(meter.ok).toBe(true);
	await vi.waitFor(() => expect(said).toEqual(['it closed the connection']));
	await new Promise((next) => setTimeout(next, 150));
	expect(said).toHaveLength(1);
	expect(asked).toBe(3);
});
