import { expect, test } from 'vitest';
import { type PaperBench, paperBench } from '../../test/paper-bench.ts';
import { afterKey, type FlowPhase, handDisturbance, handRead, isReady, keptFor, stepRead } from './adjuster-flow.ts';
import { inHand } from './run-state.ts';

const readyIn = ({ bench }: PaperBench, phase: FlowPhase): boolean =>
	isReady(phase, inHand(bench.state, 'if', 'if2'), bench.state.setting);

test('one key goes from reference to turn to reference to count, and not before a reading has settled', async () => {
	const paper = await paperBench();
	let phase: FlowPhase = 'reference before';
	const key = () => {
		phase = afterKey(phase, readyIn(paper, phase));
		return phase;
	};
	expect(key()).toBe('reference before');
	await paper.live('if', 'if2', -20, 9, keptFor(phase));
	expect(key()).toBe('reference before');
	await paper.live('if', 'if2', -20, 6, keptFor(phase));
	expect(key()).toBe('turn');
	await paper.live('if', 'if2', -18, 20, keptFor(phase));
	expect(key()).toBe('reference after');
	// Readings taken while it turned do not count as the reference.
	expect(key()).toBe('reference after');
	await paper.live('if', 'if2', -17, 12, keptFor(phase));
	expect(key()).toBe('count');
	// The amount is not known to a key.
	expect(key()).toBe('count');
});

test('the hands check takes five seconds of each and is remembered for the step', async () => {
	const paper = await paperBench();
	await paper.live('if', 'if2', -20, 49, keptFor('hands off'));
	expect(readyIn(paper, 'hands off')).toBe(false);
	await paper.live('if', 'if2', -20, 1, keptFor('hands off'));
	expect(readyIn(paper, 'hands off')).toBe(true);
	await paper.live('if', 'if2', -20.6, 50, keptFor('hands on'));
	const found = handRead(inHand(paper.bench.state, 'if', 'if2'), null);
	if (!found) throw new Error('no disturbance');
	await paper.bench.keepHand(paper.step('if'), 'if2', found);
	expect(handDisturbance(paper.bench.state, 'if', 'if2')?.stepDb.value).toBeCloseTo(0.6, 1);
	expect(handDisturbance(paper.bench.state, 'if', 'if1')?.stepDb.value).toBeCloseTo(0.6, 1);
	expect(handDisturbance(paper.bench.state, 'broadcast-antenna-high', 'ant')).toBe(null);
});

test('the 6 dB step is read across the change of the generator', async () => {
	const paper = await paperBench();
	await paper.live('if', 'if2', -20, 12, keptFor('before the step'));
	expect(stepRead(inHand(paper.bench.state, 'if', 'if2'))).toBe(null);
	await paper.bench.changeLevel(paper.step('if'), null);
	await paper.live('if', 'if2', -24.4, 12, keptFor('after the step'));
	expect(stepRead(inHand(paper.bench.state, 'if', 'if2'))?.kind).toBe('too strong');
	await paper.live('if', 'if2', -24.4, 12, keptFor('before the step'));
	await paper.bench.changeLevel(paper.step('if'), null);
	await paper.live('if', 'if2', -30.4, 12, keptFor('after the step'));
	expect(stepRead(inHand(paper.bench.state, 'if', 'if2'))?.kind).toBe('linear');
});
