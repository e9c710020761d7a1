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
