import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, expect, test } from 'vitest';
import { avcCommand } from './avc-command.ts';
import { type Command, InputFault } from './command.ts';
import { generatorCommand } from './generator-command.ts';
import { readArguments } from './read-arguments.ts';

const folder = mkdtempSync(join(tmpdir(), 'generator-'));
afterAll(() => rmSync(folder, { recursive: true }));

function file(name: string, content: string | Uint8Array): string {
	const path = join(folder, name);
	writeFileSync(path, content);
	return path;
}

function run(command: Command, ...args: readonly string[]): string[] {
	const lines: string[] = [];
	const input = readArguments(args, command.options);
	void command.run(input, { line: (text) => lines.push(text), notice: () => undefined });
	return lines;
}

const json = <Result>(command: Command, ...args: readonly string[]): Result =>
	JSON.parse(run(command, ...args, '--json').join('\n')) as Result;

/** A WAV file of one second, 16 bits, of a sine: header as RIFF has it. */
function wav(toneHz: number): Buffer {
	const rateHz = 8000;
	const bytes = Buffer.alloc(44 + 2 * rateHz);
	bytes.write('RIFF', 0);
	bytes.writeUInt32LE(36 + 2 * rateHz, 4);
	bytes.write('WAVEfmt ', 8);
	for (const [value, at] of [
		[16, 16],
		[rateHz, 24],
		[2 * rateHz, 28],
	] as const)
		bytes.writeUInt32LE(value, at);
	for (const [value, at] of [
		[1, 20],
		[1, 22],
		[2, 32],
		[16, 34],
	] as const)
		bytes.writeUInt16LE(value, at);
	bytes.write('data', 36);
	bytes.writeUInt32LE(2 * rateHz, 40);
	for (let k = 0; k < rateHz; k++)
		bytes.writeInt16LE(Math.round(8000 * Math.sin((2 * Math.PI * toneHz * k) / rateHz)), 44 + 2 * k);
	return bytes;
}

test('a whistle tells the frequency of the generator', () => {
	const path = file('whistle.wav', wav(731));
	const above = json<{ frequencyHz: { value: number } }>(
		generatorCommand,
		...['beat', path, '--station', '1000kc', '--side', 'above'],
	);
	expect(above.frequencyHz.value).toBeCloseTo(1_000_731, 0);
	const below = json<{ frequencyHz: { value: number } }>(
		generatorCommand,
		...['beat', path, '--station', '1000kc', '--side', 'below', '--harmonic', '2'],
	);
	expect(below.frequencyHz.value).toBeCloseTo(499_634.5, 0);
	expect(() => run(generatorCommand, 'beat', path, '--station', '1000kc')).toThrow(/--side/);
});

test('a table of checks corrects the dial', () => {
	const path = file('checks.csv', 'dial kc,true kc\n400,402.0\n500,503.0\n600,604.0\n');
	// Half way between 402 at 400 and 503 at 500 the dial is half way too.
	const { setDialHz } = json<{ setDialHz: { value: number } }>(generatorCommand, 'dial', path, '--at', '452.5kc');
	expect(setDialHz.value).toBeCloseTo(450e3, 3);
	expect(run(generatorCommand, 'dial', path, '--at', '455kc').at(-1)).toMatch(/^for 455 kc set the dial to 452\.\d/);
});

test('leakage, depth, steps and warm-up are told in the words of the trade', () => {
	expect(run(generatorCommand, 'leak', '--known', '100uV', '--reads=-20dB', '--off=-48dB')[0]).toContain('3.98 uV');
	expect(run(generatorCommand, 'depth', '--crest', '5.9V', '--trough', '1.2V')[0]).toBe('modulated 66.2 %');
	expect(run(generatorCommand, 'depth', '--sideband', '16.48dB')[0]).toBe('modulated 30.0 %');
	const steps = file('steps.csv', 'marked dB,read dB\n0,-10.0\n-20,-29.4\n');
	const losses = file('losses.csv', 'marked dB,read dB\n0,-10.0\n20,-29.4\n');
	expect(run(generatorCommand, 'steps', losses)[1]).toMatch(/^marked 20\.0 dB of loss: level off by 0\.60? /);
	expect(run(generatorCommand, 'steps', steps)[1]).toMatch(/^marked \u221220\.0 dB: off by 0\.60? . 0\.(3|28) dB$/);
	const rows = Array.from({ length: 40 }, (_, k) => `${k + 1},${455 + Math.exp(-(k + 1) / 5)}`);
	const drift = file('drift.csv', ['time min,frequency kc', ...rows].join('\n'));
	expect(run(generatorCommand, 'drift', drift, '--limit', '20c').at(-1)).toMatch(/^ready after \d+ min$/);
});

test('the AVC law of a table turns a reading back', () => {
	// Below the knee a decibel for a decibel; above it a third of that.
	const outputs = [0, 6, 12, 14, 16, 18].map((outputDb, k) => `${6 * k},${outputDb.toFixed(2)}`);
	const path = file('law.csv', ['input dB,output dB', ...outputs].join('\n'));
	const { readings } = json<{ readings: { inputDb: { value: number; uncertainty: number } | null }[] }>(
		avcCommand,
		...[path, '--reading', '3dB', '--reading', '17dB', '--reading', '30dB'],
	);
	expect(readings[0]?.inputDb?.value).toBeCloseTo(3, 1);
	expect(readings[1]?.inputDb?.value).toBeCloseTo(27, 1);
	// 0.05 dB of reading are three times that in input.
	expect(readings[1]?.inputDb?.uncertainty).toBeGreaterThan(0.1);
	expect(readings[2]?.inputDb).toBeNull();
	expect(run(avcCommand, path)).toHaveLength(6);
});

test('what cannot be used is said with its place', () => {
	expect(() => run(generatorCommand, 'tune')).toThrow(InputFault);
	expect(() => run(generatorCommand, 'dial')).toThrow(/give the file/);
	expect(() => run(generatorCommand, 'dial', file('bad.csv', 'dial kc,heard kc\n400,402\n'))).toThrow(
		/no column "true"/,
	);
	expect(() => run(avcCommand, file('flat.csv', 'input dB,output dB\n0,1\n6,1\n12,1\n18,1\n'))).toThrow(
		/fewer than four/,
	);
});
