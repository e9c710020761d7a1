import { expect, test } from 'vitest';
import { type FittedLaw, lawFor, noAvcWork } from '#bench/avc-laws.ts';
import { InputScale, lawCheck } from '#bench/level-scale.ts';
import { levelsOf } from '#bench/run-state.ts';
import { turnView } from '#bench/turn-view.ts';
import type { VirtualSet } from '#instruments/virtual/virtual-set.ts';
import { paperBench } from './paper-bench.ts';
import { averaged, point, steppedSet, strongV, toneV } from './stepped-set.ts';

/** What the generator would have to give more for an output, decibels, by halving. */
function neededDb(set: VirtualSet, outputV: number): number {
	let [lowDb, highDb] = [-6, 24];
	for (let halving = 0; halving < 14; halving++) {
		const middleDb = (lowDb + highDb) / 2;
		if (toneV(set, strongV * 10 ** (middleDb / 20)) < outputV) lowDb = middleDb;
		else highDb = middleDb;
	}
	return (lowDb + highDb) / 2;
}

// Truth: how much more the generator would have to give for the best output, by the circuits at rest.
test('far above the knee the coach tells at the input what the circuits lost, where the output tells a part of it', async () => {
	let worstDb = 0;
	let leastShare = 1;
	let count = 0;
	for (const seed of [11, 12, 13, 14]) {
		const { paper, set, held } = await steppedSet(seed);
		const scale = new InputScale(held);
		const step = paper.step('if');
		for (const adjuster of ['if2-secondary', 'if1-primary']) {
			const startsAt = set.state.turns[adjuster] ?? 0;
			let bestV = 0;
			for (let turn = -12; turn <= 12; turn++) {
				if (!set.turn(adjuster, startsAt + turn / 32 - (set.state.turns[adjuster] ?? 0))) continue;
				bestV = Math.max(bestV, toneV(set, strongV));
				for (let frame = 0; frame < 5; frame++) await paper.bench.keepLevel(step, adjuster, set.read(0));
				const kept = levelsOf(paper.bench.state, 'if', adjuster);
				const told = (by: InputScale | null) => {
					const hand = { step: 'if', adjuster, aim: 'maximum' } as const;
					const { at, coach } = turnView(paper.bench.state, hand, kept, kept.at(-1)?.reading ?? null, by);
					expect(at).toBe(by === null ? 'output' : 'input');
					return coach.offDb ?? 0;
				};
				const lostDb = neededDb(set, bestV);
				worstDb = Math.max(worstDb, Math.abs(told(scale) - lostDb) - 0.05 * lostDb);
				if (lostDb > 3) leastShare = Math.min(leastShare, told(null) / lostDb);
				count++;
			}
			set.turn(adjuster, startsAt - (set.state.turns[adjuster] ?? 0));
			await paper.bench.countTurn(step, adjuster, 0);
		}
	}
	expect(count).toBeGreaterThan(100);
	// A fall of several decibels is of another damping too: the law of one setting is not quite that of the next.
	expect(worstDb).toBeLessThan(0.3);
	// What the bare reading makes of a loss of more than 3 dB.
	expect(leastShare).toBeLessThan(0.25);
});

test('a turn is counted with what it gained at the input, and says so', async () => {
	const { paper, set, held } = await steppedSet(12);
	const step = paper.step('if');
	const keep = async () => {
		for (let frame = 0; frame < 5; frame++) await paper.bench.keepLevel(step, 'if2-secondary', set.read(0));
	};
	await keep();
	const before = toneV(set, strongV);
	set.turn('if2-secondary', 6 / 32);
	await keep();
	await paper.bench.countTurn(step, 'if2-secondary', 1, 'free', new InputScale(held));
	const [turn] = paper.bench.state.turns;
	expect(turn?.gainAt).toBe('input');
	expect(Math.abs((turn?.gainDb?.value ?? 0) + neededDb(set, before))).toBeLessThan(0.3);
});

test('a step of 6 dB shows whether a law holds, and one that was put away is used no more', async () => {
	const { paper, set, held } = await steppedSet(13);
	const stepped = (law: FittedLaw) => {
		const before = averaged(set)?.levelDb;
		set.changeLevel(-6);
		const after = averaged(set)?.levelDb;
		set.changeLevel(6);
		return before && after ? lawCheck(law, before, after) : null;
	};
	expect(stepped(held)?.verdict).toBe('holds');
	// Volume turned up until the output tube flattens the wave: the reading answers otherwise.
	set.setVolume(0.35);
	expect(stepped(held)?.verdict ?? 'outside').not.toBe('holds');
	set.setVolume(0.1);
	// Another run knows the law, and uses it once the step has come out right.
	const elsewhere = paper.bench.state.avc;
	expect(lawFor(noAvcWork, elsewhere, point, null)).toMatchObject({ held: null, newest: { id: held.id } });
	const again = await paperBench();
	const check = stepped(held);
	if (!check) throw new Error('the law does not reach');
	const step = again.step('if');
	const read = { kind: 'too strong', stepDb: { value: 2, uncertainty: 0.02 } } as const;
	await again.bench.keepLevelStep(step, read, { ...check, law: held.id });
	expect(lawFor(again.bench.state.avc, elsewhere, point, null).held?.id).toBe(held.id);
	expect(lawFor(again.bench.state.avc, elsewhere, 'antenna', null).newest).toBe(null);
	await again.bench.keepAvc({ kind: 'AVC law ended', law: held.id, why: 'a tube was changed' });
	expect(lawFor(again.bench.state.avc, elsewhere, point, null)).toEqual({ held: null, newest: null });
});
