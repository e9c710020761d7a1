import { mkdtempSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import type { SheetStep } from '#advice/sheet-step.ts';
import { Bench } from '#bench/bench.ts';
import { runState } from '#bench/run-state.ts';
import { typedReading } from '#instruments/typed/typed-reading.ts';
import { reportDocument } from '#report/report-document.ts';
import { runReport } from '#server/run-report.ts';
import { sqliteJournal } from '#storage/sqlite-journal.ts';
import { openStore } from '#storage/store.ts';
import { exampleCard, factsOf, sheetOf } from './example-set.ts';

const noon = Date.UTC(2026, 2, 1, 12);
const hourMs = 3_600_000;

test('a clock that is set back in the middle of a run changes no order: what was read last stays last', async () => {
	const store = await openStore(mkdtempSync(join(tmpdir(), 'peakwright-clock-')), noon);
	if (!store.ok) throw new Error(store.words);
	try {
		const journal = sqliteJournal(store.value);
		const card = exampleCard();
		const step = sheetOf(factsOf(card)).steps.find(({ adjusters }) => adjusters.length > 0) as SheetStep;
		let nowMs = noon;
		let id = 0;
		const ground = {
			run: 'clock',
			journal,
			nowMs: () => nowMs,
			newId: () => `e${id++}`,
		};
		const bench = await Bench.begin(ground, card, {});
		const read = async (words: string): Promise<void> => {
			const reading = typedReading(words, 'tone', nowMs);
			if (!reading.ok) throw new Error(reading.words);
			await bench.keepLevel(step, null, reading.value);
		};
		await read('1.0 V');
		nowMs = noon - hourMs;
		await read('2.0 V');
		nowMs = noon - 24 * hourMs;
		await read('1.5 V');
		await bench.close();

		const words = ['1.0 V', '2.0 V', '1.5 V'];
		const levels = (state: ReturnType<typeof runState>): unknown[] => state.levels.map(({ reading }) => reading.words);
		const kept = await journal.entries('clock', 0, 100);
		expect(kept.map(({ order }) => order)).toEqual(kept.map((_, k) => k));
		expect(levels(runState('clock', kept))).toEqual(words);
		expect(levels(await (await Bench.beside(ground)).takeUp())).toEqual(words);
		const report = runReport('clock', await journal.entries('clock', 0, 100), {});
		if (!report.ok) throw new Error(report.words);
		expect(JSON.stringify(reportDocument(report.value))).toContain('from 28 February 2026 to 1 March 2026');
		// The report names the days in their order, whatever order the clock gave them.
		expect([report.value.from, report.value.to]).toEqual(['28 February 2026', '1 March 2026']);
	} finally {
		await store.value.close();
	}
});
