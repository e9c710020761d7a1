import { designs } from '../../src/core/receiver/designs/designs.ts';
import { standardTone } from '../../src/core/receiver/signal.ts';
import { tamperedSet } from '../../src/core/receiver/truth.ts';
import { VirtualSet } from '../../src/instruments/virtual/virtual-set.ts';
import type { Happening, RunEntry } from '../../src/record/run.ts';
import { sqliteJournal } from '../../src/storage/sqlite-journal.ts';
import { openStore } from '../../src/storage/store.ts';
import { exampleCard, factsOf, sheetOf } from '../../test/example-set.ts';

const atOnce = 20_000;
/** Readings of one turn, at ten a second forty seconds. */
const readingsPerTurn = 400;

/** Readings of a virtual set as the bench keeps them: reference, turn, reference, count, from one adjuster to the next. */
function* happenings(readings: number): Generator<Happening> {
	const card = exampleCard();
	const design = designs[card.virtualSet ?? ''];
	if (!design) throw new Error('missing virtual set of the demo card');
	const set = new VirtualSet(tamperedSet(design, 11), 11, null);
	set.place({ frequencyHz: 455e3, ...standardTone, into: 'converter grid' }, 560e3);
	yield { kind: 'started', card, options: {}, meter: 'virtual', generator: 'virtual' };
	for (const { id, questions } of sheetOf(factsOf(card)).steps) {
		if (id === 'if') break;
		const answers = questions.map(({ id: question, answer, words }) => [
			question,
			answer === 'volts' ? '95 V' : words.startsWith('Screws as they were') ? 'no' : 'yes',
		]);
		yield { kind: 'step begun', step: id, pass: 1 };
		yield { kind: 'step done', step: id, pass: 1, answers: Object.fromEntries(answers) };
	}
	yield { kind: 'step begun', step: 'if', pass: 1 };
	const adjusters = ['if2-secondary', 'if2-primary', 'if1-secondary', 'if1-primary'];
	for (let number = 0; number < readings; number++) {
		const inTurn = number % readingsPerTurn;
		const adjuster = adjusters[Math.floor(number / readingsPerTurn) % adjusters.length] as string;
		const purpose = inTurn < 20 ? 'reference before' : inTurn < readingsPerTurn - 20 ? 'live' : 'reference after';
		if (purpose === 'live') set.turn(adjuster, inTurn % 40 < 20 ? 1 / 64 : -1 / 64);
		yield { kind: 'level', step: 'if', adjuster, purpose, reading: set.read(1_700_000_000_000 + 100 * number) };
		if (inTurn === readingsPerTurn - 1)
			yield {
				kind: 'adjusted',
				step: 'if',
				pass: 1,
				adjuster,
				eighths: 1,
				beforeDb: null,
				afterDb: null,
				bestDb: null,
			};
	}
}

/** Keeps a run of so many readings of the virtual set in the journal of a new data folder. */
export async function keepLongRun(folder: string, readings: number): Promise<void> {
	const store = await openStore(folder, 0);
	if (!store.ok) throw new Error(store.words);
	const { database } = store.value;
	let waiting: RunEntry[] = [];
	const keep = async () => {
		await database.transaction().execute((transaction) => sqliteJournal({ database: transaction }).keep(waiting));
		waiting = [];
	};
	let order = 0;
	for (const what of happenings(readings)) {
		waiting.push({ id: crypto.randomUUID(), run: 'long', order, atMs: 1_700_000_000_000 + 100 * order++, what });
		if (waiting.length === atOnce) await keep();
	}
	await keep();
	await store.value.close();
}
