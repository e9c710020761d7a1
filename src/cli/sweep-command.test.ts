import { mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, expect, test } from 'vitest';
import { gateFor, judgeGate } from '#advice/gates.ts';
import { afterAvc, lawFor, noAvcWork } from '#bench/avc-laws.ts';
import { parseSweep } from '#record/sweep-file.ts';
import { type InstrumentDrawer, instrumentDrawer } from '#storage/instrument-drawer.ts';
import { sqliteJournal } from '#storage/sqlite-journal.ts';
import { openStore } from '#storage/store.ts';
import { type ScriptedInstrument, scriptedInstrument } from '../../test/scripted-instrument.ts';
import type { Command } from './command.ts';
import { gateAnswers } from './gate-questions.ts';
import { instrumentCommand } from './instrument-command.ts';
import { readArguments } from './read-arguments.ts';
import { factsFor } from './sheet-file.ts';
import { sweepCommand } from './sweep-command.ts';

const card = 'examples/thistlemoor-tm-517.json';
let folder: string;
let instrument: ScriptedInstrument;
let isOn = false;

/** A set whose curve is a parabola in decibels about 456 kc, 6 dB down at 5 kc; its output is in proportion to the generator. */
async function parabola(identity: string): Promise<void> {
	let frequencyHz = 455e3;
	let levelDb = 0;
	instrument = await scriptedInstrument((line, socket) => {
		const value = Number(line.split(' ')[1]);
		if (line.startsWith('SOUR:FREQ')) frequencyHz = value;
		if (line.startsWith('SOUR:POW')) levelDb = value;
		if (line.startsWith('OUTP')) isOn = line.endsWith('ON');
		if (line === '*IDN?') socket.write(`${identity}\n`);
		if (line === '*OPC?') socket.write('1\n');
		if (line === 'SYST:ERR?') socket.write('0,"No error"\n');
		if (line === 'MEAS:VOLT:AC?') {
			const heardDb = levelDb + 40 - 6 * ((frequencyHz - 456e3) / 5e3) ** 2;
			socket.write(`${isOn ? 10 ** (heardDb / 20) : 9.91e37}\n`);
		}
	});
}

beforeEach(() => {
	folder = mkdtempSync(join(tmpdir(), 'sweep-'));
});
afterEach(async () => {
	await instrument.stop();
	rmSync(folder, { recursive: true });
});

async function sweep(...args: readonly string[]): Promise<string[]> {
	const lines: string[] = [];
	const all = [card, '--if', '455kc', '--generator', `127.0.0.1:${instrument.port}`, '--data', folder, ...args];
	const input = readArguments(all, sweepCommand.options);
	await sweepCommand.run(input, { line: (text) => lines.push(text), notice: () => undefined });
	return lines;
}

test('a curve is swept, written as a table that can be read again, and kept reading by reading', async () => {
	await parabola('PEAKWRIGHT,VIRTUAL PARABOLA,0,1');
	const out = join(folder, 'curve.csv');
	const [only = ''] = await sweep('--points', '15', '--span', '20kc', '--out', out, '--json');
	const { run, of6Db } = JSON.parse(only) as { run: string; of6Db: number };
	expect(of6Db).toBeCloseTo(6, 1);
	expect(isOn).toBe(false);
	const curve = parseSweep(readFileSync(out, 'utf8'), 'curve');
	if (!curve.ok) throw new Error(curve.words);
	expect(curve.value.points).toHaveLength(15);
	// With the parabola taken off, every point is as high as the others.
	const tops = curve.value.points.map(({ frequencyHz, levelDb }) => levelDb + 6 * ((frequencyHz - 456e3) / 5e3) ** 2);
	expect(Math.max(...tops) - Math.min(...tops)).toBeLessThan(0.02);
	const store = await openStore(folder, Date.now());
	if (!store.ok) throw new Error(store.words);
	const entries = await sqliteJournal(store.value).entries(run, 0, 1000);
	await store.value.close();
	expect(entries[0]?.what.kind).toBe('started');
	expect(entries.find(({ what }) => what.kind === 'sweep file')?.what).toMatchObject({ points: { length: 15 } });
	expect(entries.at(-1)?.what).toEqual({ kind: 'ended', how: 'done' });
	expect(entries.filter(({ what }) => what.kind === 'swept reading').length).toBeGreaterThanOrEqual(2 * (7 + 15));
});

test('without a place the instruments are those that page and terminal keep', async () => {
	await parabola('PEAKWRIGHT,VIRTUAL PARABOLA,0,1');
	const place = `127.0.0.1:${instrument.port}`;
	const run = async (command: Command, ...args: string[]): Promise<string[]> => {
		const lines: string[] = [];
		const all = [...args, '--data', folder];
		const input = readArguments(all, command.options);
		await command.run(input, { line: (text) => lines.push(text), notice: () => undefined });
		return lines;
	};
	const points = ['--points', '15', '--span', '20kc', '--json'];
	await expect(run(sweepCommand, card, '--if', '455kc', ...points)).rejects.toThrow(/none is kept.*--keep generator/);
	for (const which of ['generator', 'meter'])
		expect((await run(instrumentCommand, place, '--keep', which)).at(-1)).toContain(`kept as your ${which}`);
	const [only = ''] = await run(sweepCommand, card, '--if', '455kc', ...points);
	expect(JSON.parse(only)).toMatchObject({ kind: 'swept' });
});

test('the AVC curve is stepped out into a table that the law is made from', async () => {
	await parabola('PEAKWRIGHT,VIRTUAL PARABOLA,0,1');
	const out = join(folder, 'steps.csv');
	await sweep('--avc', '--level', '1mV', '--most', '8mV', '--out', out);
	expect(isOn).toBe(false);
	const [header, ...rows] = readFileSync(out, 'utf8').trim().split('\n');
	expect(header).toBe('input uV,output dB');
	// 1 mV to 8 mV are 18.06 dB: seven steps of 3 dB from 0 on, the set in proportion.
	expect(rows).toHaveLength(7);
	const levels = rows.map((row) => row.split(',').map(Number) as [number, number]);
	const [first, last] = [levels[0] as [number, number], levels[6] as [number, number]];
	expect(20 * Math.log10(last[0] / first[0])).toBeCloseTo(18, 1);
	expect(last[1] - first[1]).toBeCloseTo(18, 1);
	// It is kept with the set, for the bench.
	const store = await openStore(folder, Date.now());
	if (!store.ok) throw new Error(store.words);
	const kept = (await sqliteJournal(store.value).avcLaws('thistlemoor-tm-517')).reduce(afterAvc, noAvcWork);
	await store.value.close();
	const { newest } = lawFor(noAvcWork, kept, kept.laws[0]?.begun.point ?? '', null);
	expect(newest?.steps).toHaveLength(7);
	expect(newest?.law.places.at(-1)?.slopeDbPerDb).toBeCloseTo(1, 2);
});

test('an output that a killed program left on is told of and seen off before the next sweep', async () => {
	await parabola('PEAKWRIGHT,VIRTUAL PARABOLA,0,1');
	const place = `127.0.0.1:${instrument.port}`;
	const drawer = async <Answer>(doing: (of: InstrumentDrawer) => Promise<Answer>): Promise<Answer> => {
		const store = await openStore(folder, Date.now());
		if (!store.ok) throw new Error(store.words);
		const answer = await doing(instrumentDrawer(store.value));
		await store.value.close();
		return answer;
	};
	const args = [card, '--if', '455kc', '--generator', place, '--data', folder];
	// As a program leaves it that was killed with the output on.
	await drawer((of) => of.markOn({ place, description: null }));

	const notices: string[] = [];
	const input = readArguments([...args, '--points', '15', '--span', '20kc', '--json'], sweepCommand.options);
	await sweepCommand.run(input, { line: () => undefined, notice: (text) => notices.push(text) });
	expect(notices[0]).toContain(`the generator at ${place} may have been on`);
	expect(isOn).toBe(false);
	expect(await drawer((of) => of.leftOn())).toBe(null);

	await drawer((of) => of.markOn({ place: '192.0.2.7', description: null }));
	await expect(sweep('--points', '15', '--json')).rejects.toThrow(
		/192\.0\.2\.7 may have been on: switch its output off/,
	);
	expect(await drawer((of) => of.leftOn())).toEqual({ place: '192.0.2.7', description: null });
});

test('a real set is not swept before its questions are answered', async () => {
	await parabola('MAKER,MODEL,0,1');
	// There is no terminal here.
	await expect(sweep()).rejects.toThrow(/at a terminal/);
	expect(instrument.heard).not.toContain('OUTP:STAT ON');
});

test('the questions of a gate are put as they stand, and its answers open it', async () => {
	await parabola('MAKER,MODEL,0,1');
	const gate = gateFor('first hook-up', factsFor(card), 'converter grid');
	const asked: string[] = [];
	const said: string[] = [];
	const ask = async (question: string): Promise<string> => {
		asked.push(question);
		return question.endsWith('(yes or no) ') ? ' Yes' : '0.4 V';
	};
	const answers = await gateAnswers(gate, ask, (line) => said.push(line));
	expect(judgeGate(gate, answers)).toEqual({ kind: 'open' });
	expect(asked).toHaveLength(gate.confirmations.length + gate.measurements.length);
	// Every caution is said before the first question.
	for (const { words } of gate.cautions) expect(said.join('\n')).toContain(words);
});
