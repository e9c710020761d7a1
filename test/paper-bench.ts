import type { Sheet, SheetStep } from '../src/advice/sheet-step.ts';
import { Bench } from '../src/bench/bench.ts';
import { createRandom } from '../src/core/numeric/random.ts';
import type { LevelReading } from '../src/record/reading.ts';
import type { RunEntry } from '../src/record/run.ts';
import type { SetCard } from '../src/record/set-card.ts';
import { factsOf, sheetOf } from './example-set.ts';

const card: SetCard = {
	schema: 'peakwright/set-card',
	version: 1,
	id: 'invented',
	supply: 'transformer',
	common: 'chassis',
	ifDesigned: [{ frequency: '455 kc' }],
	bands: [{ id: 'broadcast', low: '540 kc', high: '1600 kc', lowEnd: 'padder' }],
	adjusters: [
		{ id: 'if1', name: 'T1', stage: 'IF', transformer: 1, winding: 'primary', kind: 'slug' },
		{ id: 'if2', name: 'T2', stage: 'IF', transformer: 2, winding: 'primary', kind: 'slug' },
		{ id: 'osc', name: 'C2', stage: 'oscillator', end: 'high', kind: 'air trimmer' },
		{ id: 'padder', name: 'C3', stage: 'oscillator', end: 'low', kind: 'padder' },
		{ id: 'ant', name: 'C1', stage: 'antenna', end: 'high', kind: 'air trimmer' },
	],
};

/** A bench whose journal is a list in memory, with the sheet of an invented set. */
export interface PaperBench {
	readonly bench: Bench;
	readonly sheet: Sheet;
	readonly kept: RunEntry[];
	step(id: string): SheetStep;
	/** The run as another page would take it up. */
	again(): Promise<Bench>;
	/** Keeps readings of a live meter about a level, with the scatter of a tone 20 dB over its noise. */
	live(
		step: string,
		adjuster: string,
		levelDb: number,
		count: number,
		what?: Parameters<Bench['keepLevel']>[3],
	): Promise<void>;
}

export async function paperBench(): Promise<PaperBench> {
	const sheet = sheetOf(factsOf(card));
	const kept: RunEntry[] = [];
	let number = 0;
	const journal = {
		append: async (entries: readonly RunEntry[]) => {
			kept.push(...entries);
		},
		standing: async () => kept,
	};
	const ground = { run: 'r', journal, nowMs: () => 1000 + number, newId: () => `e${number++}` };
	const bench = await Bench.begin(ground, card, {});
	const { gaussian } = createRandom(4);
	const step = (id: string): SheetStep => {
		const found = sheet.steps.find((candidate) => candidate.id === id);
		if (!found) throw new Error(`missing step: ${id}`);
		return found;
	};
	return {
		bench,
		sheet,
		kept,
		step,
		again: async () => {
			const bench = await Bench.beside(ground);
			await bench.takeUp();
			return bench;
		},
		live: async (id, adjuster, levelDb, count, what) => {
			for (let frame = 0; frame < count; frame++) {
				const reading: LevelReading = {
					kind: 'level',
					atMs: 100 * number,
					instrument: 'sound input',
					reference: 'dBFS',
					quantity: 'tone',
					trust: 'ok',
					levelDb: { value: levelDb + 0.031 * gaussian(), uncertainty: 0.031 },
				};
				await bench.keepLevel(step(id), adjuster, reading, what);
			}
		},
	};
}
