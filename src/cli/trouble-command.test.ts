import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, expect, test } from 'vitest';
import type { Happening } from '#record/run.ts';
import { sqliteJournal } from '#storage/sqlite-journal.ts';
import { openStore } from '#storage/store.ts';
import { InputFault } from './command.ts';
import { readArguments } from './read-arguments.ts';
import { troubleCommand } from './trouble-command.ts';

let folder: string;
beforeAll(() => {
	folder = mkdtempSync(join(tmpdir(), 'trouble-'));
});
afterAll(() => rmSync(folder, { recursive: true }));

interface Answer {
	readonly trouble: string;
	readonly causes: readonly {
		readonly cause: string;
		readonly probability: number;
		readonly evidence: readonly { readonly test: string; readonly times: number }[];
	}[];
	readonly nextTest: { readonly test: string; readonly caution: string } | null;
	readonly handOver: string | null;
}

async function run(...args: string[]): Promise<string[]> {
	const lines: string[] = [];
	const input = readArguments(args, troubleCommand.options);
	await troubleCommand.run(input, { line: (text) => lines.push(text), notice: () => undefined });
	return lines;
}
const answered = async (...args: string[]) => JSON.parse((await run(...args, '--json')).join('\n')) as Answer;

test('causes of a symptom are ranked, add up to one, and the next test is named with its caution', async () => {
	const { causes, nextTest } = await answered('--symptom', 'hum');
	expect(causes.reduce((sum, { probability }) => sum + probability, 0)).toBeCloseTo(1, 9);
	expect(causes.map(({ probability }) => probability)).toEqual(
		causes.map(({ probability }) => probability).toSorted((a, b) => b - a),
	);
	expect(nextTest?.caution).toMatch(/unplug|No hand|no hand/);
});

test('an answer counts as evidence, a typed reading by its bounds', async () => {
	const { causes } = await answered('--symptom', 'avc-masks', '--answer', 'six-db=1.5 dB');
	expect(causes[0]?.cause).toBe('too-strong');
	expect(causes[0]?.evidence[0]).toMatchObject({ test: 'six-db' });
	expect(causes[0]?.evidence[0]?.times).toBeGreaterThan(1);
});

test('readings of a run count by themselves, and the trouble that fits them best is taken', async () => {
	const store = await openStore(folder, 0);
	if (!store.ok) throw new Error(store.words);
	const what: Happening = { kind: 'test answered', trouble: 'hum', test: 'silence', outcome: 'hum' };
	const pitch: Happening = { kind: 'test answered', trouble: 'hum', test: 'hum-pitch', outcome: 'twice' };
	await sqliteJournal(store.value).append(
		[what, pitch].map((one, order) => ({ id: `e${order}`, run: 'r1', order, atMs: order, what: one })),
	);
	await store.value.close();
	const { trouble, causes } = await answered('--run', 'r1', '--data', folder);
	expect(trouble).toBe('hum');
	expect(causes[0]?.cause).toBe('filter-capacitor');
	await expect(run('--run', 'r2', '--data', folder)).rejects.toThrow(InputFault);
});

test('what cannot be used is refused with what to give instead', async () => {
	for (const [args, words] of [
		[['--symptom', 'marmalade'], 'give one of'],
		[['--symptom', 'hum', '--answer', 'hum-pitch=blue'], 'mains, twice, none'],
		[['--symptom', 'hum', '--answer', 'pitch'], 'TEST=OUTCOME'],
		[['hum'], '--symptom "hum"'],
	] as const)
		await expect(run(...args)).rejects.toThrow(words);
});

test('a shock from the chassis is handed to a licensed person', async () => {
	const lines = await run('--symptom', 'hot chassis', '--answer', 'plug-ohms=leak', '--answer', 'volts-each-way=both');
	expect(lines.join('\n')).toContain('Stop here.');
	expect(lines.at(-1)).toBe('Local codes and licensed practice come first.');
});
