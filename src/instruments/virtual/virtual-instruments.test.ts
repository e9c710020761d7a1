import { expect, test } from 'vitest';
import { tm517 } from '#core/receiver/designs/tm-517.ts';
import { tamperedSet } from '#core/receiver/truth.ts';
import { virtualInstruments } from './virtual-instruments.ts';
import { VirtualSet } from './virtual-set.ts';

const set = () => new VirtualSet(tamperedSet(tm517, 3), 3, null);
const decibels = (reply: string | null): number => 20 * Math.log10(Number(reply));

test('who reads too soon after a step of level reads what AVC has not taken off yet', () => {
	let atMs = 0;
	const panel = virtualInstruments(set(), () => atMs);
	panel.line('HAND:LEAD GRID;VOL 2;:FREQ 455E3;AM 30;:POW -40;:OUTP ON');
	const levelAfter = (ms: number): number => {
		atMs += ms;
		return decibels(panel.line('MEAS:VOLT:AC?').reply);
	};
	const before = levelAfter(3000);
	panel.line('POW -20');
	const early = levelAfter(0);
	const late = levelAfter(3000);
	expect(early - before).toBeGreaterThan(late - before + 3);
	// One time constant, 3.3 megohms times 0.05 mfd, takes the excess to 1/e.
	panel.line('POW -40');
	levelAfter(3000);
	panel.line('POW -20');
	const first = levelAfter(0) - late;
	const later = levelAfter(165) - late;
	expect(later / first).toBeCloseTo(Math.exp(-1), 1);
});

test('output off is silence, and *RST turns it off', () => {
	const panel = virtualInstruments(set(), () => 0);
	panel.line('HAND:LEAD GRID;:FREQ 455E3;:POW -50;:OUTP ON');
	expect(Number(panel.line('MEAS:VOLT:AC?').reply)).toBeGreaterThan(0.01);
	panel.line('*RST');
	expect(panel.line('OUTP?;:MEAS:VOLT:AC?').reply).toBe('0;9.91E37');
});

test('the hand turns the screws that the set has', () => {
	const tuned = set();
	const panel = virtualInstruments(tuned, () => 0);
	const before = tuned.state.turns['if2-secondary'] as number;
	panel.line('HAND:TURN "if2-secondary",0.125');
	expect(tuned.state.turns['if2-secondary']).toBeCloseTo(before + 0.125, 9);
	panel.line('HAND:TURN "constructor",1;:HAND:TURN 3');
	expect(panel.line('SYST:ERR?;:SYST:ERR?;:SYST:ERR?').reply).toBe(
		'-224,"Illegal parameter value";-109,"Missing parameter";0,"No error"',
	);
});
