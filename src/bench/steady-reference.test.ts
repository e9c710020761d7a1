import { expect, test } from 'vitest';
import { paperBench } from '../../test/paper-bench.ts';
import { keptFor } from './adjuster-flow.ts';
import { driftBetween, reproduction } from './steady-reference.ts';

const asLeft = { purpose: 'check', check: 'as left' } as const;

test('the levels of a turn are those read with the hand off, and a weaker signal in the middle is no loss', async () => {
	const { bench, step, live } = await paperBench();
	await bench.beginStep(step('if'));
	await live('if', 'if2', -20, 12, keptFor('reference before'));
	// The hand on the screw takes 0.7 dB away.
	await live('if', 'if2', -20.7, 10);
	await live('if', 'if2', -15.7, 10);
	await bench.changeLevel(step('if'), null);
	await live('if', 'if2', -25.7, 10);
	await live('if', 'if2', -23.7, 10);
	await live('if', 'if2', -23, 12, keptFor('reference after'));
	await bench.countTurn(step('if'), 'if2', 3);
	const [turn] = bench.state.turns;
	expect(turn?.afterDb?.value).toBeCloseTo(-23, 1);
	// By hand: 4.3 dB up to the change of the generator and 2.7 dB after it.
	expect(turn?.gainDb?.value).toBeCloseTo(7, 1);
});

test('a reference that moved between two adjusters is called drift, not gain', async () => {
	const { bench, step, live } = await paperBench();
	await bench.beginStep(step('if'));
	await live('if', 'if2', -20, 12, keptFor('reference before'));
	await live('if', 'if2', -18, 12, keptFor('reference after'));
	await bench.countTurn(step('if'), 'if2', 1);
	await live('if', 'if1', -18, 12, keptFor('reference before'));
	expect(driftBetween(bench.state, 'if', 'if1')?.isSame).toBe(true);
	await live('if', 'if1', -18.8, 12, keptFor('reference before'));
	const drift = driftBetween(bench.state, 'if', 'if1');
	expect(drift?.differenceDb.value).toBeCloseTo(-0.8, 1);
	expect(drift?.words).toContain('0.8 dB lower');
	expect(bench.state.turns[0]?.gainDb?.value).toBeCloseTo(2, 1);
});

test('after a pause the last reading is taken once more, and a difference is told and begins comparison anew', async () => {
	const { bench, step, live, again } = await paperBench();
	expect((await again()).state.mustReproduce).toBe(false);
	await bench.beginStep(step('if'));
	await live('if', 'if2', -20, 12, keptFor('reference before'));
	const taken = await again();
	expect(taken.state.mustReproduce).toBe(true);
	const once = async (levelDb: number) => {
		for (let frame = 0; frame < 12; frame++) {
			await taken.keepLevel(
				step('if'),
				null,
				{
					kind: 'level',
					atMs: frame,
					instrument: 'sound input',
					reference: 'dBFS',
					quantity: 'tone',
					trust: 'ok',
					levelDb: { value: levelDb, uncertainty: 0.03 },
				},
				asLeft,
			);
		}
		return reproduction(taken.state);
	};
	expect(await once(-20.2)).toMatchObject({ isSame: true });
	const other = await once(-21.5);
	expect(other).toMatchObject({ isSame: false });
	expect(other?.words).toContain('1.5 dB lower than before the pause');
	const { setting } = taken.state;
	await taken.reproduce('differs', other?.differenceDb ?? null);
	expect(taken.state).toMatchObject({ mustReproduce: false, setting: setting + 1 });
});
