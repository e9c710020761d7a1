import { expect, test } from 'vitest';
import type { Done, Generator } from '#instruments/instrument.ts';
import { markedOutput } from './marked-output.ts';

test('an output is marked before it is switched on, and until it has said that it is off', async () => {
	const order: string[] = [];
	let off: Done = { kind: 'failed', words: 'no answer' };
	const told = (word: string, answer: () => Done) => async (): Promise<Done> => {
		order.push(word);
		return answer();
	};
	const done = (): Done => ({ kind: 'done' });
	const generator: Generator = {
		name: 'scripted',
		setFrequency: told('frequency', done),
		setLevel: told('level', done),
		raiseLevel: told('level', done),
		modulate: told('modulation', done),
		switchOn: told('on', done),
		switchOff: told('off', () => off),
	};
	const marked = markedOutput(generator, {
		markOn: async () => void order.push('marked'),
		seenOff: async () => void order.push('seen off'),
	});
	await marked.switchOn();
	await marked.switchOff();
	off = { kind: 'done' };
	await marked.switchOff();
	expect(order).toEqual(['marked', 'on', 'off', 'off', 'seen off']);
});
