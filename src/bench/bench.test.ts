import fc from 'fast-check';
import { expect, test } from 'vitest';
import { gateFor } from '#advice/gates.ts';
import { typedReading } from '#instruments/typed/typed-reading.ts';
import type { RunEntry } from '#record/run.ts';
import type { SetCard } from '#record/set-card.ts';
import { factsOf, sheetOf } from '../../test/example-set.ts';
import { Bench, type BenchGround } from './bench.ts';
import type { Journal } from './journal.ts';
import { levelsOf, runState } from './run-state.ts';
import { turnLog, wayHome } from './way-home.ts';

const card: SetCard = {
	schema: 'peakwright/set-card',
	version: 1,
	id: 'invented',
	supply: 'transformer',
	common: 'chassis',
	ifDesigned: [{ frequency: '455 kc' }],
	adjusters: [{ id: 'if1-primary', name: 'T1', stage: 'IF', transformer: 1, winding: 'primary', kind: 'slug' }],
};
const facts = factsOf(card);
const sheet = sheetOf(facts);
const step = sheet.steps.find(({ id }) => id === 'if');
if (!step) throw new Error('missing step: if');

function paper(): { journal: Journal; kept: RunEntry[]; ground: BenchGround } {
	const kept: RunEntry[] = [];
	let number = 0;
	const journal: Journal = {
		append: async (entries) => {
			kept.push(...entries);
		},
		standing: async () => kept,
	};
	return { journal, kept, ground: { run: 'r', journal, nowMs: () => 1000 + number, newId: () => `e${number++}` } };
}

function reading(words: string) {
	const read = typedReading(words, 'AC volts', 0);
	if (!read.ok) throw new Error(read.words);
	return read.value;
}

test('a happening that could not be kept does not count', async () => {
	const { ground, journal } = paper();
	const bench = await Bench.begin(ground, card, {});
	journal.append = async () => {
		throw new Error('the disk is full');
	};
	await expect(bench.keepLevel(step, 'if1-primary', reading('2 V'))).rejects.toThrow('the disk is full');
	expect(bench.state.levels).toEqual([]);
});

test('a journal that is slower than the meter does not fall behind: what came meanwhile is kept in one piece and in order', async () => {
	const { ground, journal, kept } = paper();
	const bench = await Bench.begin(ground, card, {});
	const pieces: number[] = [];
	let free = (): void => undefined;
	journal.append = async (entries) => {
		pieces.push(entries.length);
		await new Promise<void>((resolve) => {
			free = resolve;
		});
		kept.push(...entries);
	};
	const aMoment = () => new Promise((resolve) => setTimeout(resolve));
	const levels = [bench.keepLevel(step, 'if1-primary', reading('1 V'))];
	await aMoment();
	for (let k = 1; k < 20; k++) levels.push(bench.keepLevel(step, 'if1-primary', reading(`${k + 1} V`)));
	free();
	await aMoment();
	free();
	await Promise.all(levels);
	expect(pieces).toEqual([1, 19]);
	expect(bench.state.levels.map(({ reading: { words } }) => words)).toEqual(levels.map((_, k) => `${k + 1} V`));
	expect(kept.map(({ order }) => order)).toEqual(kept.map((_, index) => index));
});

test('what the bench shows is the fold of what was kept, whatever was done', async () => {
	const act = fc.oneof(
		fc.constant((bench: Bench) => bench.beginStep(step)),
		fc.constant((bench: Bench) => bench.finishStep(step, { a: 'yes' })),
		fc
			.integer({ min: 1, max: 99 })
			.map((tenths) => (bench: Bench) => bench.keepLevel(step, 'if1-primary', reading(`${tenths / 10} V`))),
		fc
			.option(fc.integer({ min: -16, max: 16 }))
			.map((eighths) => (bench: Bench) => bench.countTurn(step, 'if1-primary', eighths)),
		fc.constant((bench: Bench) => bench.strike(bench.state.levels.at(-1)?.entry ?? 'e0', 'misread')),
		fc.string({ maxLength: 20 }).map((text) => (bench: Bench) => bench.note(text)),
		fc.constant((bench: Bench) => bench.changeLevel(step, 0.01)),
	);
	await fc.assert(
		fc.asyncProperty(fc.array(act, { maxLength: 20 }), async (acts) => {
			const { ground, kept } = paper();
			const bench = await Bench.begin(ground, card, {});
			// Not awaited one by one: they are kept in the order they came all the same.
			await Promise.all(acts.map((todo) => todo(bench)));
			expect(runState('r', kept)).toEqual(bench.state);
			expect(kept.map(({ order }) => order)).toEqual(kept.map((_, index) => index));
		}),
		{ numRuns: 50 },
	);
});

test('a run taken up again finds its readings and closed gates', async () => {
	const { ground } = paper();
	const bench = await Bench.begin(ground, card, {});
	const gate = gateFor('power-up', facts, 'grid');
	expect((await bench.passGate(gate, {})).kind).toBe('closed');
	expect(bench.state.passedGates).toEqual([]);
	await bench.passGate(gate, Object.fromEntries(gate.confirmations.map(({ id }) => [id, 'yes'])));
	expect(bench.state.passedGates).toEqual(['power-up: grid']);
	await bench.keepLevel(step, 'if1-primary', reading('2.4 V'));
	const again = await Bench.beside(ground);
	expect(again.state.passedGates).toEqual(['power-up: grid']);
	await again.takeUp();
	expect(again.state.levels.map((level) => level.reading.words)).toEqual(['2.4 V']);
	expect(again.state.passedGates).toEqual([]);
});

test('the way home undoes the net turn, and says when it cannot', async () => {
	const { ground } = paper();
	const bench = await Bench.begin(ground, card, {});
	await bench.countTurn(step, 'if1-primary', 11);
	await bench.countTurn(step, 'if1-primary', -2);
	expect(wayHome(bench.state)[0]?.words).toBe('Turn it 1 and 1/8 turns back the other way, counter-clockwise.');
	await bench.countTurn(step, 'if1-primary', null);
	expect(wayHome(bench.state)[0]?.words).toContain('pencil mark');
	expect(turnLog(bench.state).map(({ undo }) => undo)).toEqual([
		'Not counted: go by the pencil mark.',
		'Turn 2/8 turn back the other way, clockwise.',
		'Turn 1 and 3/8 turns back the other way, counter-clockwise.',
	]);
});

test('a turn carries the levels that were read before and after it', async () => {
	const { ground } = paper();
	const bench = await Bench.begin(ground, card, {});
	for (const words of ['1.0 V', '2.0 V', '1.6 V']) await bench.keepLevel(step, 'if1-primary', reading(words));
	await bench.countTurn(step, 'if1-primary', 3);
	const [turn] = bench.state.turns;
	expect(turn?.beforeDb?.value).toBeCloseTo(0, 6);
	// 20 log10(1.6) = 4.082
	expect(turn?.afterDb?.value).toBeCloseTo(4.082, 3);
});

test('levels before and after a change of the generator are not compared', async () => {
	const { ground } = paper();
	const bench = await Bench.begin(ground, card, {});
	await bench.beginStep(step);
	await bench.keepLevel(step, 'if1-primary', reading('1 V'));
	await bench.changeLevel(step, 0.005);
	await bench.keepLevel(step, 'if1-primary', reading('0.5 V'));
	await bench.countTurn(step, 'if1-primary', 1);
	// By hand: 20 log10(0.5) = -6.0206 dB, the only level since the change.
	expect(bench.state.turns[0]?.beforeDb?.value).toBeCloseTo(-6.0206, 4);
	expect(bench.state.turns[0]?.afterDb?.value).toBeCloseTo(-6.0206, 4);
	expect(bench.state.levels).toHaveLength(2);
});

test('levels of two instruments are not compared', async () => {
	const { ground } = paper();
	const bench = await Bench.begin(ground, card, {});
	await bench.beginStep(step);
	await bench.keepLevel(step, 'if1-primary', reading('1 V'));
	await bench.keepLevel(step, 'if1-primary', { ...reading('0.1 V'), instrument: 'another meter' });
	expect(levelsOf(bench.state, step.id, 'if1-primary').map(({ reading: { words } }) => words)).toEqual(['0.1 V']);
});
