import { expect, test } from 'vitest';
import { usualOptions } from '#advice/sheet-options.ts';
import { factsOf, sheetOf } from '../../test/example-set.ts';
import { gateBefore } from './gate-order.ts';
import { noRun, type RunState } from './run-state.ts';

const facts = factsOf({
	schema: 'peakwright/set-card',
	version: 1,
	supply: 'ac-dc',
	ifDesigned: [{ frequency: '455 kc' }],
	adjusters: [
		{ id: 'if1', name: 'T1', stage: 'IF', transformer: 1, kind: 'slug' },
		{ id: 'osc', name: 'C2', stage: 'oscillator', end: 'high', kind: 'air trimmer' },
		{ id: 'ant', name: 'C1', stage: 'antenna', end: 'high', kind: 'air trimmer' },
	],
});
const { steps } = sheetOf(facts);

/** Works through steps, passing every gate, and tells the moments of the gates that stood before each. */
function gatesPassed(ids: readonly string[], begun: Partial<RunState> = {}): string[][] {
	let state: RunState = { ...noRun('r'), ...begun };
	return ids.map((id) => {
		const step = steps.find((candidate) => candidate.id === id);
		if (!step) throw new Error(`missing step: ${id}`);
		const moments: string[] = [];
		for (let gate = gateBefore(step, state, facts); gate !== null; gate = gateBefore(step, state, facts)) {
			moments.push(gate.moment);
			state = { ...state, passedGates: [...state.passedGates, gate.id] };
			if (moments.length > 5) throw new Error(`no way through the gates of ${id}`);
		}
		return moments;
	});
}

// The program's own rules of safety: a gate at the first hook-up, at power-up, at resume and at each new kind of contact.
test('hands before power, and again at each new contact', () => {
	expect(gatesPassed(['triage', 'marking', 'if', 'broadcast-oscillator-high', 'broadcast-antenna-high'])).toEqual([
		['first hook-up', 'power-up'],
		[],
		['new contact', 'power-up'],
		['new contact', 'power-up'],
		[],
	]);
});

test('a run taken up again stands before closed gates', () => {
	expect(gatesPassed(['if', 'broadcast-oscillator-high'], { isResumed: true })).toEqual([
		['resume', 'power-up'],
		['new contact', 'power-up'],
	]);
});

test('a gate that was passed in one language stays passed in another', () => {
	const step = steps.find(({ id }) => id === 'broadcast-oscillator-high');
	const british = sheetOf(facts, { ...usualOptions, words: 'UK' });
	const same = british.steps.find(({ id }) => id === step?.id);
	if (!step || !same) throw new Error('no such step');
	expect(same.hookUp?.point).not.toBe(step.hookUp?.point);
	const passedGates = ['first hook-up: antenna through dummy', 'power-up: antenna through dummy'];
	expect(gateBefore(step, { ...noRun('r'), passedGates }, facts)).toBeNull();
	expect(gateBefore(same, { ...noRun('r'), passedGates }, facts)).toBeNull();
});

test('going back to a contact that was left asks again', () => {
	expect(gatesPassed(['if', 'broadcast-oscillator-high', 'if'])[2]).toEqual(['new contact', 'power-up']);
});
