import { createRandom, type Random } from '../../src/core/numeric/random.ts';
import type { RunEntry } from '../../src/record/run.ts';
import type { SetCard } from '../../src/record/set-card.ts';
import { sqliteShelf } from '../../src/storage/shelf.ts';
import { sqliteJournal } from '../../src/storage/sqlite-journal.ts';
import { openStore } from '../../src/storage/store.ts';
import { inTransaction } from '../../src/storage/transaction.ts';

const makers = ['Thistlemoor', 'Larkwater', 'Fennhollow', 'Quillbeck', 'Ashgrove', 'Marlpit'] as const;
const tubes = ['12SA7', '6A8', '6K7', '6SK7', '12SK7', '6Q7', '6V6', '35Z5GT'] as const;
const frequencies = ['455kc', '456kc', '465kc', '175kc', '262kc', '470kc'] as const;

/** Questions to the lists of a long shelf. */
export const questions: readonly string[] = [
	'/sets',
	'/sets?from=4800',
	'/sets?find=larkwater',
	'/sets?find=m-1234',
	'/sets?find=6K7',
	'/sets?find=455%20kc',
	'/sets?find=1936',
	'/sets?find=quillbeck%206a8%20465kc%201938',
	'/sets?find=nothing%20of%20the%20kind',
	'/runs?set=set-77',
	'/runs',
];

function card(number: number, chance: Random): SetCard {
	const one = <Value>(list: readonly Value[]): Value => list[Math.floor(chance.uniform() * list.length)] as Value;
	return {
		schema: 'peakwright/set-card',
		version: 1,
		id: `set-${number}`,
		supply: 'transformer',
		maker: one(makers),
		model: `M-${number}`,
		year: 1930 + Math.floor(chance.uniform() * 25),
		tubes: ['converter', 'IF', 'detector', 'output', 'rectifier'].map((stage) => ({ stage, type: one(tubes) })),
		ifDesigned: [{ frequency: one(frequencies) }],
		notes: 'Invented: one of many on a long shelf. '.repeat(10),
	};
}

/** Fills a data folder with so many invented sets, two versions of each card, and runs of three entries. */
export async function longShelf(folder: string, sets: number, runs: number): Promise<void> {
	const store = await openStore(folder, 0);
	if (!store.ok) throw new Error(store.words);
	const chance = createRandom(5);
	const cards = Array.from({ length: sets }, (_, number) => card(number, chance));
	await inTransaction(store.value.database, async (database) => {
		const inside = { ...store.value, database };
		const [shelf, journal] = [sqliteShelf(inside), sqliteJournal(inside)];
		for (const changedAtMs of [1, 2])
			for (const one of cards) await shelf.add({ id: one.id ?? '', changedAtMs, card: one });
		for (let from = 0; from < runs; from += 500) {
			const entries = Array.from({ length: 500 }, (_, k): RunEntry[] => {
				const [run, atMs] = [`run-${from + k}`, 1e12 + 1000 * (from + k)];
				const own = cards[(from + k) % sets] as SetCard;
				const started = { kind: 'started', card: own, options: {}, meter: 'typed', generator: 'typed' } as const;
				return [
					{ id: `${run}-0`, run, order: 0, atMs, what: started },
					{ id: `${run}-1`, run, order: 1, atMs: atMs + 1, what: { kind: 'note', text: 'hums' } },
					{ id: `${run}-2`, run, order: 2, atMs: atMs + 2, what: { kind: 'ended', how: 'done' } },
				];
			});
			await journal.keep(entries.flat());
		}
	});
	await store.value.close();
}
