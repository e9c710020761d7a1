import { expect, test } from 'vitest';
import type { Happening, RunEntry } from '#record/run.ts';
import type { Adjuster } from '#record/set-card.ts';
import { mistakesOf } from './mistakes.ts';

const adjusters: readonly Adjuster[] = [
	{ id: 't1', name: 'T1 pri.', stage: 'IF', kind: 'compression trimmer' },
	{ id: 'l1', name: 'L1', stage: 'IF', kind: 'slug' },
];
const at = (happenings: readonly (readonly [atMs: number, what: Happening])[]): RunEntry[] =>
	happenings.map(([atMs, what], order) => ({ id: `e${order}`, run: 'r', order, atMs, what }));
const turn = (eighths: number | null): Happening => ({
	kind: 'adjusted',
	step: 'if',
	pass: 1,
	adjuster: 't1',
	eighths,
	beforeDb: null,
	afterDb: null,
	bestDb: null,
});
const gate: Happening = { kind: 'gate passed', gate: 'first hook-up', answers: {} };
const begun: Happening = { kind: 'step begun', step: 'if', pass: 1 };

test('careful work has no mistakes', () => {
	const entries = at([
		[0, begun],
		[9000, gate],
		[20_000, turn(2)],
		[30_000, turn(-8)],
	]);
	expect(mistakesOf(entries, {}, adjusters)).toEqual([]);
});

test('whole turns that a lesson itself asks for are no mistake, those of another screw are', () => {
	const entries = at([
		[0, begun],
		[9000, gate],
		[20_000, turn(-48)],
	]);
	expect(mistakesOf(entries, {}, adjusters, ['t1'])).toEqual([]);
	expect(mistakesOf(entries, {}, adjusters, ['l1']).map(({ words }) => words)).toEqual([
		'An adjuster was turned by more than a full turn once.',
	]);
});

test('what could have broken something is counted and said', () => {
	const strong: Happening = {
		kind: '6 dB step',
		step: 'if',
		stepDb: { value: 1, uncertainty: 0.1 },
		verdict: 'too strong',
	};
	const entries = at([
		[0, begun],
		[1500, gate],
		[2000, gate],
		[20_000, turn(11)],
		[30_000, turn(null)],
		[40_000, strong],
		[50_000, turn(1)],
		[60_000, { kind: 'generator level', step: 'if' }],
		[70_000, turn(3)],
		[71_000, { kind: 'sweep begun', role: 'nudge', adjuster: 't1' }],
	]);
	const pressed = {
		t1: { times: 2, turns: 0.5, way: 'tight' as const },
		l1: { times: 1, turns: 0.1, way: 'tight' as const },
	};
	expect(mistakesOf(entries, pressed, adjusters).map(({ words }) => words)).toEqual([
		'Cautions were confirmed within 4 seconds twice: they were passed over.',
		'T1 pri. was turned on against its tight stop twice, 4 eighths in all.',
		'L1 was turned on against its tight stop once, 1 eighth in all.',
		'An adjuster was turned by more than a full turn once.',
		'A nudge for a curve was more than an eighth of a turn once.',
		'A turn was not counted once.',
		'An adjuster was turned once although the 6 dB step had said that the signal is too strong.',
	]);
	expect(mistakesOf(entries, pressed, adjusters)[1]?.could).toMatch(/mica cracks/);
	expect(mistakesOf(entries, pressed, adjusters)[2]?.could).toMatch(/core splits/);
});
