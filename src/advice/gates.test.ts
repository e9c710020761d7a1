import { expect, test } from 'vitest';
import type { SetCard } from '#record/set-card.ts';
import { setFacts } from '#record/set-facts.ts';
import { gateFor, judgeGate } from './gates.ts';

function facts(supply: SetCard['supply']) {
	const made = setFacts({ schema: 'peakwright/set-card', version: 1, supply });
	if (!made.ok) throw new Error(made.words);
	return made.value;
}

const yesToAll = (gate: ReturnType<typeof gateFor>, voltage: string) =>
	Object.fromEntries([
		...gate.confirmations.map(({ id }) => [id, 'yes']),
		...gate.measurements.map(({ id }) => [id, voltage]),
	]);

test('a set that may be live is measured to earth, plug both ways, switch on and off', () => {
	const gate = gateFor('first hook-up', facts('unknown'), 'grid');
	expect(gate.measurements.filter(({ quantity }) => quantity === 'AC volts')).toHaveLength(8);
	expect(
		gateFor('first hook-up', facts('transformer'), 'grid').measurements.filter(
			({ quantity }) => quantity === 'AC volts',
		),
	).toHaveLength(0);
});

test('the gate opens only when everything is confirmed and measured within its limit', () => {
	const gate = gateFor('first hook-up', facts('ac-dc'), 'grid');
	expect(judgeGate(gate, {}).kind).toBe('closed');
	expect(judgeGate(gate, yesToAll(gate, '0.3 V')).kind).toBe('open');
	const high = judgeGate(gate, { ...yesToAll(gate, '0.3 V'), 'chassis-turned-round-on': '117 V' });
	expect(high.kind).toBe('closed');
	if (high.kind === 'closed')
		expect(high.missing[0]?.words).toMatch(/117 V is above 5 V: feed the set through an isolation transformer/);
});

test('a reading without a unit, or of less than nothing, does not slip through', () => {
	const gate = gateFor('first hook-up', facts('ac-dc'), 'grid');
	for (const words of ['3', '3..2 V', '-', '1e400', '-117 V']) {
		expect(judgeGate(gate, { ...yesToAll(gate, '0 V'), dead: words }).kind, words).toBe('closed');
	}
});

test('the set is proved dead last, after the readings for which it was switched on', () => {
	for (const moment of ['first hook-up', 'resume'] as const) {
		expect(gateFor(moment, facts('ac-dc'), 'grid').measurements.at(-1)?.id, moment).toBe('dead');
	}
});

test('every set with B-plus has to be proved dead, and every moment has its gate', () => {
	for (const supply of ['ac-dc', 'transformer', 'unknown'] as const) {
		expect(gateFor('new contact', facts(supply), 'grid').measurements.map(({ id }) => id)).toContain('dead');
	}
	for (const moment of ['first hook-up', 'power-up', 'resume', 'new contact'] as const) {
		expect(gateFor(moment, facts('transformer'), 'grid').confirmations.length).toBeGreaterThan(0);
	}
});
