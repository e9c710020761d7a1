import { testAsks } from '../src/advice/tests/asks.ts';
import { ReadingBook } from '../src/advice/tests/finding.ts';
import { usualGear } from '../src/advice/tests/gear.ts';
import { Bench } from '../src/bench/bench.ts';
import type { RunEntry } from '../src/record/run.ts';
import { testReadingOf } from '../src/record/test-words.ts';
import { exampleCard, factsOf } from './example-set.ts';
import { provedReadings } from './proved-readings.ts';

/** The entries of a run on the demo set: tests before, adjusters turned, notes, tests after with the same gear. */
export async function provedRun(): Promise<RunEntry[]> {
	const facts = factsOf(exampleCard());
	const entries: RunEntry[] = [];
	let atMs = Date.UTC(2026, 2, 1, 9);
	const journal = {
		append: async (more: readonly RunEntry[]) => void entries.push(...more),
		standing: async () => entries,
	};
	const ground = {
		run: 'proved-run',
		journal,
		nowMs: () => {
			atMs += 20_000;
			return atMs;
		},
		newId: () => `entry-${entries.length}`,
	};
	const bench = await Bench.begin(ground, facts.card, {});
	const read = async (moment: 'before' | 'after') => {
		const gear = usualGear(facts, moment);
		await bench.keepTestGear(gear);
		for (const [id, early, late] of provedReadings) {
			const ask = testAsks(facts, new ReadingBook([], gear)).find((one) => one.id === id);
			if (!ask) throw new Error(`no reading ${id}`);
			const asked = { moment, test: ask.test, ask: id, quantity: ask.quantity };
			const reading = testReadingOf(asked, moment === 'before' ? early : late);
			if (!reading.ok) throw new Error(reading.words);
			await bench.keepTestReading(reading.value);
		}
	};
	/** Invented curves: decibels down at 0, 2.5, 5 and 10 kc off, alike on both sides but for a tilt. */
	const sweep = async (role: 'base' | 'proof', downDb: readonly [tilt: number, number, number, number]) => {
		const { sweeps } = await bench.beginSweep(role, null);
		const id = sweeps.at(-1)?.id ?? '';
		const [tilt, ...down] = downDb;
		const points = [-10, -5, -2.5, 0, 2.5, 5, 10].map((offKc) => ({
			frequencyHz: 455e3 + 1e3 * offKc,
			levelDb: -(offKc === 0 ? 0 : (down[[2.5, 5, 10].indexOf(Math.abs(offKc))] ?? 0)) + (tilt * offKc) / 5,
			uncertaintyDb: 0.2,
		}));
		await bench.keepSweepFile(id, `${role}.csv`, points);
	};
	/** An invented dial: kilocycles off at three marks. */
	const dial = async (pass: number, offKc: readonly [number, number, number]) => {
		for (const [k, markKc] of [600, 1000, 1400].entries())
			await bench.keepDial({
				kind: 'dial reading',
				band: facts.bands[0]?.id ?? '',
				pass,
				dialHz: 1e3 * markKc,
				heardHz: 1e3 * (markKc + (offKc[k] ?? 0)),
				heardUncertaintyHz: 100,
				source: 'station',
			});
	};
	await sweep('base', [-2, 3, 9, 12]);
	await dial(0, [12, -4, -22]);
	await read('before');
	await bench.note('C14 0.05 mfd, AVC line, replaced by 0.047 mfd 630 V. R7 had drifted to 3.1 M, replaced by 2.2 M.');
	const step = { id: 'if', aim: 'maximum' } as Parameters<Bench['countTurn']>[0];
	for (const [adjuster, eighths] of [
		['if2-secondary', 3],
		['if2-primary', -2],
		['if1-secondary', 5],
		['if1-primary', null],
		['wave-trap', 1],
		['oscillator-trimmer', -4],
		['antenna-trimmer', 2],
		['if2-secondary', -1],
	] as const)
		await bench.countTurn(step, adjuster, eighths);
	await sweep('proof', [0, 0, 6, 20]);
	await dial(1, [1, 0, -2]);
	await read('after');
	await bench.end('done');
	return entries;
}
