import type { TestAnswer } from '#advice/trouble/ranking.ts';
import { Bench } from '#bench/bench.ts';
import { outbox } from './outbox.svelte.ts';
import { holdRun } from './run-hold.ts';

/** Keeps the answers of a trouble and its finding in a run's journal; returns what to tell the person. */
export async function keepAnswers(
	run: string,
	trouble: string,
	answers: readonly TestAnswer[],
	finding: string,
): Promise<string> {
	const hold = await holdRun(run, async () => {});
	if (hold === null) return 'Not kept: this run is worked in another tab. Put it down there first.';
	try {
		const bench = await Bench.beside({ run, journal: outbox, nowMs: Date.now, newId: () => crypto.randomUUID() });
		for (const { test, outcome, words } of answers) await bench.keepAnswer(trouble, test, outcome, words ?? null);
		await bench.note(finding);
		await bench.close();
		return 'Kept in the run\u2019s record.';
	} finally {
		hold.release();
	}
}
