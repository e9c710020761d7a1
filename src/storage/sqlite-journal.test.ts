import { mkdtempSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import fc from 'fast-check';
import { sql } from 'kysely';
import { afterEach, expect, test } from 'vitest';
import { levelsInHand } from '#bench/journal.ts';
import { runState } from '#bench/run-state.ts';
import type { Happening, RunEntry } from '#record/run.ts';
import { type SqliteJournal, sqliteJournal } from './sqlite-journal.ts';
import { openStore, type Store } from './store.ts';

const open: Store[] = [];
afterEach(async () => {
	for (const store of open.splice(0)) await store.close();
});

async function newJournal(): Promise<SqliteJournal> {
	const store = await openStore(mkdtempSync(join(tmpdir(), 'peakwright-journal-')), 0);
	if (!store.ok) throw new Error(store.words);
	open.push(store.value);
	return sqliteJournal(store.value);
}

const level = (valueDb: number, purpose: 'live' | 'reference before' = 'live'): Happening => ({
	kind: 'level',
	step: 'if',
	adjuster: 'if1-primary',
	purpose,
	reading: {
		kind: 'level',
		atMs: 1,
		instrument: 'typed',
		levelDb: { value: valueDb, uncertainty: 0.1 },
		reference: 'dBV',
		quantity: 'tone',
		trust: 'ok',
	},
});
const entry = (order: number, what: Happening, id = `e${order}`): RunEntry => ({
	id,
	run: 'r',
	order,
	atMs: order,
	what,
});

test('the entries of a run that are no level are read from their index alone', async () => {
	const store = await openStore(mkdtempSync(join(tmpdir(), 'peakwright-journal-')), 0);
	if (!store.ok) throw new Error(store.words);
	open.push(store.value);
	const { rows } = await sql<{ detail: string }>`explain query plan select run, place, id, at_ms, what from entry
		indexed by entry_but_levels where run = 'r' and reading is null`.execute(store.value.database);
	expect(rows.map(({ detail }) => detail)).toEqual(['SEARCH entry USING COVERING INDEX entry_but_levels (run=?)']);
});

test.each([
	['within a long turn', 1011, levelsInHand.turning],
	['after a turn that was just counted', 3511, 58],
])('where a run stands is told by fewer entries than it has, and is the same: %s', async (_, lastTurn, turning) => {
	const journal = await newJournal();
	const longest = 3600;
	const entries = Array.from({ length: longest }, (_, order): RunEntry => {
		if (order % 50 === 7) return entry(order, { kind: 'generator level', step: 'if', levelV: 1e-3 });
		// Taken up again once, when levels of that time are no longer in hand.
		if (order === 206) return entry(order, { kind: 'resumed' });
		if (order % 300 === 9) return entry(order, { kind: 'struck', entry: `e${order - 1}`, why: 'misread' });
		if (order % 500 === 11 && order <= lastTurn)
			return entry(order, {
				kind: 'adjusted',
				step: 'if',
				pass: 1,
				adjuster: 'if1-primary',
				eighths: 1,
				beforeDb: null,
				afterDb: null,
				bestDb: null,
			});
		return entry(order, level(order, order % 3 === 0 ? 'reference before' : 'live'));
	});
	await journal.append(entries);
	const standing = await journal.standing('r');
	expect(standing.length).toBeLessThan(entries.length);
	expect(runState('r', standing)).toEqual(runState('r', entries));
	expect(JSON.parse(await journal.standingText('r'))).toEqual(standing);
	const { levels } = runState('r', standing);
	const live = levels.filter(({ purpose }) => purpose === 'live');
	const hand = (lastTurn - 11) / 500 + 1;
	expect(live.filter((level) => level.hand === hand)).toHaveLength(turning);
	expect(live.filter((level) => level.hand < hand)).toHaveLength(levelsInHand.turned);
	expect(levels).toHaveLength(turning + levelsInHand.turned + levelsInHand.resting);
});

test('a run is read in pages, without a gap', async () => {
	const journal = await newJournal();
	const entries = Array.from({ length: 25 }, (_, order) => entry(order, level(order)));
	await journal.append(entries);
	const pages = [
		await journal.entries('r', 0, 10),
		await journal.entries('r', 10, 10),
		await journal.entries('r', 20, 10),
	];
	expect(pages.flat()).toEqual(entries);
	expect(JSON.parse(await journal.entriesText('r', 10, 5))).toEqual(entries.slice(10, 15));
});

test('whatever is sent twice, late or by two writers is kept once, and each writer in its own order', async () => {
	await fc.assert(
		fc.asyncProperty(
			fc.array(
				fc.record({ writer: fc.constantFrom('a', 'b'), again: fc.boolean(), size: fc.integer({ min: 1, max: 4 }) }),
				{
					maxLength: 12,
				},
			),
			async (sendings) => {
				const journal = await newJournal();
				const next = { a: 0, b: 0 };
				const sent: RunEntry[] = [];
				for (const { writer, again, size } of sendings) {
					const batch = Array.from({ length: size }, () => {
						const order = next[writer as 'a' | 'b']++;
						return entry(order, { kind: 'note', text: `${writer}${order}` }, `${writer}${order}`);
					});
					await journal.append(batch);
					if (again) await journal.append(batch);
					sent.push(...batch);
				}
				const kept = await journal.entries('r', 0, 1000);
				expect(kept.map(({ id }) => id).sort()).toEqual(sent.map(({ id }) => id).sort());
				expect(new Set(kept.map(({ order }) => order)).size).toBe(kept.length);
				for (const writer of ['a', 'b']) {
					const own = kept.filter(({ id }) => id.startsWith(writer)).map(({ id }) => Number(id.slice(1)));
					expect(own).toEqual([...own].sort((one, other) => one - other));
				}
			},
		),
		{ numRuns: 10 },
	);
});

test('a list of runs tells how many entries each has, and how it was put down', async () => {
	const journal = await newJournal();
	const card = { schema: 'peakwright/set-card', version: 1, id: 'one', supply: 'battery' } as const;
	await journal.append([
		entry(0, { kind: 'started', card, options: {}, meter: 'typed', generator: 'typed' }),
		entry(1, { kind: 'note', text: 'hums' }),
		entry(2, { kind: 'ended', how: 'left' }),
	]);
	const line = { run: 'r', set: 'one', startedAtMs: 0, isPractice: false };
	expect(await journal.runs('one')).toEqual([{ ...line, lastAtMs: 2, entries: 3, ended: 'left' }]);
	await journal.append([entry(3, { kind: 'resumed' })]);
	expect(await journal.runs('one')).toEqual([{ ...line, lastAtMs: 3, entries: 4, ended: null }]);
	await journal.append([entry(4, { kind: 'ended', how: 'done' })]);
	expect(await journal.runs('one')).toEqual([{ ...line, lastAtMs: 4, entries: 5, ended: 'done' }]);
	const practice = { lesson: 'way-home', seed: 0, faults: [] };
	await journal.append([
		{
			...entry(0, {
				kind: 'started',
				card: { ...card, id: 'three' },
				options: {},
				meter: 'typed',
				generator: 'typed',
				practice,
			}),
			id: 'p',
			run: 'p',
		},
	]);
	expect(await journal.runs('three')).toMatchObject([{ run: 'p', ended: null, isPractice: true }]);
	expect(await journal.runs('two')).toEqual([]);
});

test('the runs of a set are counted with practice apart', async () => {
	const journal = await newJournal();
	const begin = async (run: string, set: string, faults?: readonly string[]): Promise<void> => {
		const card = { schema: 'peakwright/set-card', version: 1, id: set, supply: 'battery' } as const;
		const practice = faults && { practice: { seed: 3, faults: [...faults] } };
		await journal.append([
			{
				...entry(0, { kind: 'started', card, options: {}, meter: 'typed', generator: 'typed', ...practice }),
				id: run,
				run,
			},
			{ ...entry(1, { kind: 'ended', how: 'left' }), id: `${run}-end`, run },
		]);
	};
	await begin('one', 'worked');
	await begin('two', 'worked', []);
	await begin('three', 'worked', ['winding-damped']);
	await begin('four', 'practised', []);
	await begin('five', 'else');
	expect(await journal.runCounts(['worked', 'practised', 'bare'])).toEqual(
		new Map([
			['practised', { work: 0, practice: 1 }],
			['worked', { work: 1, practice: 2 }],
		]),
	);
});

test('the AVC laws of a set are found over its runs and no other set’s, without steps that were struck', async () => {
	const journal = await newJournal();
	const begin = (set: string): Happening => ({
		kind: 'started',
		card: { schema: 'peakwright/set-card', version: 1, id: set, supply: 'battery' },
		options: {},
		meter: 'typed',
		generator: 'typed',
	});
	const step = (levelV: number): Happening => {
		const read = level(1);
		if (read.kind !== 'level') throw new Error('not a level');
		return { kind: 'AVC step', law: 'e1', levelV, reading: read.reading };
	};
	const begun: Happening = {
		kind: 'AVC law begun',
		step: 'if',
		point: 'grid',
		generator: 'by hand',
		frequencyHz: 455e3,
		toneHz: 400,
		depth: 0.3,
	};
	await journal.append([entry(0, begin('one')), entry(1, begun), entry(2, step(1e-3)), entry(3, step(2e-3))]);
	await journal.append([entry(4, { kind: 'struck', entry: 'e2', why: 'misread' })]);
	const over: Happening = { kind: 'AVC law ended', law: 'e1', why: 'a tube was changed' };
	const elsewhere = (order: number, what: Happening) => ({ ...entry(order, what, `o${order}`), run: 'other', atMs: 9 });
	await journal.append([elsewhere(0, begin('one')), elsewhere(1, over)]);
	await journal.append([{ ...entry(0, begin('two'), 't0'), run: 'third' }]);
	await journal.append([{ ...entry(1, begun, 't1'), run: 'third' }]);
	expect((await journal.avcLaws('one')).map(({ id }) => id)).toEqual(['e1', 'e3', 'o1']);
});

test('checks of generators are found over all runs, without those that were struck', async () => {
	const journal = await newJournal();
	const check = (readsHz: number): Happening => ({
		kind: 'generator check',
		generator: 'old Bakelite',
		readsHz,
		trueHz: readsHz + 1e3,
		uncertaintyHz: 50,
		words: 'zero beat',
	});
	await journal.append([entry(0, check(600e3)), entry(1, level(1)), entry(2, check(455e3))]);
	await journal.append([{ ...entry(0, check(1400e3), 'o0'), run: 'other', atMs: 5 }]);
	await journal.append([entry(3, { kind: 'struck', entry: 'e2', why: 'misread' })]);
	expect((await journal.generatorChecks()).map(({ id }) => id)).toEqual(['e0', 'o0']);
});
