import { describe, expect, test } from 'vitest';
import { bestAlignment } from '#core/receiver/best.ts';
import { designs } from '#core/receiver/designs/designs.ts';
import { tm517 } from '#core/receiver/designs/tm-517.ts';
import { factoryTurns } from '#core/receiver/factory.ts';
import { gainAtIfDb, receivedHz, sensitivityV } from '#core/receiver/sensitivity.ts';
import { tamperedSet } from '#core/receiver/truth.ts';
import { exampleCard, factsOf, sheetOf } from '../../test/example-set.ts';
import { rehearse } from './rehearse.ts';

const facts = factsOf(exampleCard());
const sheet = sheetOf(facts);

describe.each(Object.values(designs))('the virtual set $id', (design) => {
	const factory = { design, faults: [], turns: factoryTurns(design), pointerSlipM: 0 };

	test('as it left its maker receives within 6 kc of every test mark and needs tens of microvolts or less', () => {
		for (const mark of design.testHz) {
			expect(Math.abs(receivedHz(factory, mark) - mark)).toBeLessThan(6e3);
			expect(sensitivityV(factory, mark)).toBeLessThan(50e-6);
		}
	});

	test('has one best that is reached from different tampered settings', () => {
		const gains = [1, 2, 3].map((seed) => {
			const set = { ...tamperedSet(design, seed), pointerSlipM: 0 };
			const trap = design.trap.adjuster;
			return gainAtIfDb(bestAlignment({ ...set, turns: { ...set.turns, [trap]: factory.turns[trap] as number } }));
		});
		expect(Math.max(...gains) - Math.min(...gains)).toBeLessThan(0.05);
	});

	test.each([1, 2, 3])('tampered by seed %s is brought near its best by the usual hand', (seed) => {
		const set = tamperedSet(design, seed);
		const rehearsal = rehearse(set, sheet, { meterDb: 0.2, pointerM: 0.3e-3, seed });
		expect(rehearsal.belowBestDb).toBeGreaterThanOrEqual(-0.05);
		expect(rehearsal.belowBestDb).toBeLessThan(3);
		for (const [k, { v }] of rehearsal.after.sensitivityV.entries()) {
			expect(v as number).toBeLessThan(rehearsal.before.sensitivityV[k]?.v as number);
		}
		expect(rehearse(set, sheet, { meterDb: 0.2, pointerM: 0.3e-3, seed })).toEqual(rehearsal);
	});
});

test('a hand that follows the guidance puts a dial right that the usual hand leaves far off', () => {
	const set = tamperedSet(tm517, 1004);
	const gear = { meterDb: 0.2, pointerM: 0.3e-3, seed: 1004 };
	const usual = rehearse(set, sheet, gear);
	const guided = rehearse(set, sheet, gear, { facts, aim: { kind: 'on IF' } });
	expect(usual.worstDialErrorHz).toBeGreaterThan(15e3);
	expect(guided.worstDialErrorHz).toBeLessThan(10e3);
	expect(guided.belowBestDb).toBeLessThan(1.5);
});
