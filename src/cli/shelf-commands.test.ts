import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import type { Happening } from '#record/run.ts';
import { sqliteJournal } from '#storage/sqlite-journal.ts';
import { openStore } from '#storage/store.ts';
import { runCommandLine } from './main.ts';

const folder = mkdtempSync(join(tmpdir(), 'shelf-'));

/** Runs of one set, each begun a day after the one before. */
async function keep(runs: Readonly<Record<string, readonly Happening[]>>): Promise<void> {
	const store = await openStore(folder, 0);
	if (!store.ok) throw new Error(store.words);
	const entries = Object.entries(runs).flatMap(([run, happenings], day) =>
		happenings.map((what, order) => ({ id: `${run}-${order}`, run, order, atMs: day * 86_400_000, what })),
	);
	await sqliteJournal(store.value).append(entries);
	await store.value.close();
}

const begun = {
	kind: 'started',
	card: { schema: 'peakwright/set-card', version: 1, id: 'one', supply: 'battery' },
	options: {},
	meter: 'typed',
	generator: 'typed',
} as const satisfies Happening;

test('runs tells finished runs from those that were left, and practice from work', async () => {
	await keep({
		a: [begun, { kind: 'ended', how: 'done' }],
		b: [begun, { kind: 'ended', how: 'left' }],
		c: [begun],
		d: [
			{ ...begun, practice: { seed: 3, faults: [] } },
			{ kind: 'ended', how: 'done' },
		],
	});
	const lines: string[] = [];
	const status = await runCommandLine(['runs', '--data', folder], {
		line: (text) => lines.push(text),
		notice: (text) => lines.push(text),
	});
	rmSync(folder, { recursive: true });
	expect(status, lines.join('\n')).toBe(0);
	expect(lines).toEqual([
		'd  one  1970-01-04 00:00  2 entries  practice, finished',
		'c  one  1970-01-03 00:00  1 entry  not put down',
		'b  one  1970-01-02 00:00  2 entries  left',
		'a  one  1970-01-01 00:00  2 entries  finished',
	]);
});
