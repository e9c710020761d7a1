import { afterEach, expect, test } from 'vitest';
import { tm517 } from '#core/receiver/designs/tm-517.ts';
import { tamperedSet } from '#core/receiver/truth.ts';
import { virtualInstruments } from '#instruments/virtual/virtual-instruments.ts';
import { VirtualSet } from '#instruments/virtual/virtual-set.ts';
import { scriptedInstrument } from '../../test/scripted-instrument.ts';
import { InputFault } from './command.ts';
import { instrumentCommand } from './instrument-command.ts';
import { servePanel } from './panel-server.ts';
import { readArguments } from './read-arguments.ts';

const open: { stop(): Promise<void> }[] = [];
afterEach(async () => {
	for (const { stop } of open.splice(0)) await stop();
});

async function virtualPort(): Promise<number> {
	const served = await servePanel(virtualInstruments(new VirtualSet(tamperedSet(tm517, 3), 3, null), Date.now), 0);
	if (!served.ok) throw new Error(served.words);
	open.push(served.value);
	return served.value.port;
}

async function instrument(...args: readonly string[]): Promise<string[]> {
	const lines: string[] = [];
	const input = readArguments(args, instrumentCommand.options);
	await instrumentCommand.run(input, { line: (text) => lines.push(text), notice: () => undefined });
	return lines;
}

test('an instrument is found, asked, and its description tried line by line', async () => {
	const place = `127.0.0.1:${await virtualPort()}`;
	const [only = '', ...more] = await instrument(place, '--ask', 'FREQ?', '--try', '--json');
	expect(more).toEqual([]);
	const { identity, answer, lines } = JSON.parse(only) as {
		identity: string;
		answer: string;
		lines: { what: string; line: string; kind: string; words: string }[];
	};
	expect(identity).toMatch(/^PEAKWRIGHT,VIRTUAL TM-517/);
	expect(answer).toBe('455000.0');
	// The generic description asks for 1 Gc, which this generator objects to with -222; its depth of 95 % it takes.
	expect(lines.find(({ what }) => what === 'set frequency, most')).toMatchObject({ kind: 'refused' });
	expect(lines.find(({ what }) => what === 'set frequency, most')?.words).toContain('-222');
	expect(lines.find(({ what }) => what === 'set modulation depth, most')).toMatchObject({ kind: 'done' });
	// On only at the least level, and off afterwards.
	const sent = lines.map(({ line }) => line);
	expect(sent.indexOf('OUTP:STAT ON')).toBeGreaterThan(sent.indexOf('SOUR:POW:LEV:IMM:AMPL -140.00'));
	const [after = ''] = await instrument(place, '--ask', 'OUTP:STAT?', '--json');
	expect(JSON.parse(after)).toMatchObject({ answer: '0' });
});

test('what cannot be used is said in one line', async () => {
	await expect(instrument('nowhere here')).rejects.toThrow(InputFault);
	await expect(instrument('127.0.0.1:1')).rejects.toThrow(/is it on/);
	await expect(instrument('127.0.0.1:1', '--ask', '*RST')).rejects.toThrow(/one question/);
	await expect(instrument('127.0.0.1:1', '--description', 'no-such-file.json')).rejects.toThrow(/no-such-file/);
	const other = await scriptedInstrument((line, socket) => line.endsWith('?') && socket.write('0,"-"\n'));
	open.push(other);
	await expect(
		instrument(`127.0.0.1:${other.port}`, '--ask', 'X?', '--description', 'examples/instruments/plain-generator.json'),
	).resolves.toEqual([`127.0.0.1:${other.port} is 0,"-"`, '0,"-"']);
});
