import { expect, test } from 'vitest';
import { tm517 } from '#core/receiver/designs/tm-517.ts';
import { standardTone } from '#core/receiver/signal.ts';
import { tamperedSet } from '#core/receiver/truth.ts';
import { VirtualSet } from './virtual-set.ts';

const found = tamperedSet(tm517, 5);
const atIf = { frequencyHz: 455e3, ...standardTone, into: 'converter grid' } as const;
const levelDb = (set: VirtualSet): number => set.read(0).levelDb?.value ?? Number.NEGATIVE_INFINITY;

test('a virtual set answers to its screws, to the attenuator and to nothing', () => {
	const set = new VirtualSet(found, 5, null);
	set.place(atIf, 560e3);
	const foundDb = levelDb(set);
	set.turn('if2-secondary', 0.25);
	expect(Math.abs(levelDb(set) - foundDb)).toBeGreaterThan(0.3);
	set.changeLevel(-200);
	expect(set.read(0)).toMatchObject({ trust: 'too weak', levelDb: null });
});

test('a stop is felt and kept to', () => {
	const set = new VirtualSet(found, 5, null);
	expect(set.turn('if2-secondary', 100)).toBe(false);
	expect(set.state.turns['if2-secondary']).toBe(4);
	expect(set.turn('no-such-screw', 1)).toBe(false);
});

test('what hands did to it is taken up again', () => {
	const set = new VirtualSet(found, 5, null);
	set.turn('padder', 0.5);
	const again = new VirtualSet(found, 5, set.state);
	expect(again.state).toEqual(set.state);
});

test('turning on against a stop is strain: one press once, however many small turns it comes in', () => {
	const set = new VirtualSet(found, 1, null);
	expect(set.turn('if1-primary', 99)).toBe(false);
	expect(set.isAtStop('if1-primary')).toBe(true);
	expect(set.state.strains).toEqual({});
	set.turn('if1-primary', 1 / 64);
	set.turn('if1-primary', 1 / 64);
	set.turn('if1-primary', -1 / 8);
	set.turn('if1-primary', 1 / 8);
	set.turn('if1-primary', 1 / 8);
	expect(set.state.strains).toEqual({ 'if1-primary': { times: 2, turns: 5 / 32, way: 'tight' } });
});

test('a generator that leaks reaches the set with its attenuator at nought', () => {
	const leaky = { ...found, faults: [...found.faults, { kind: 'generator leaks', levelV: 40e-6 } as const] };
	expect(new VirtualSet(found, 1, null).generatorDown.levelV).toBe(0);
	expect(new VirtualSet(leaky, 1, null).generatorDown.levelV).toBe(40e-6);
});
