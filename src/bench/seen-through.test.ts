import { expect, test } from 'vitest';
import type { Done, Generator } from '#instruments/instrument.ts';
import type { SweptReading } from '#record/swept-reading.ts';
import { type SweepGround, SweepHand, SweepLeft, seenThrough } from './sweep-hand.ts';

const done = { kind: 'done' } as const;
const dead: Done = { kind: 'failed', words: 'no answer' };

function groundOf(generator: Partial<Generator>, kept: SweptReading[] = []): SweepGround {
	const does = async (): Promise<Done> => done;
	return {
		generator: {
			name: 'scripted',
			setFrequency: does,
			setLevel: does,
			raiseLevel: does,
			modulate: does,
			switchOn: does,
			switchOff: does,
			...generator,
		},
		meter: {
			name: 'scripted',
			read: async () => ({
				kind: 'level',
				atMs: 0,
				instrument: 'scripted',
				reference: 'dBV',
				quantity: 'tone',
				trust: 'ok',
				levelDb: { value: -20, uncertainty: 0.1 },
			}),
		},
		waitMs: async () => undefined,
		keep: async (reading) => kept.push(reading),
		agrees: async () => true,
		turn: async () => 'on',
		progress: () => undefined,
	};
}
const stuck = groundOf({ switchOff: async () => dead });
const mayBeOn = /the generator may still be on: switch it off by hand \(no answer\)/;

test('a switch-off that fails after another error is told with it', async () => {
	const failed = seenThrough(stuck, () => Promise.reject(new Error('the disk is full')));
	await expect(failed).rejects.toThrow(/^the disk is full; and the generator may still be on/);
	const left = await seenThrough(stuck, () =>
		Promise.reject(new SweepLeft({ kind: 'failed', words: 'the meter does not answer' })),
	);
	expect(left).toMatchObject({ kind: 'failed', words: expect.stringMatching(/^the meter does not answer; and/) });
	expect(left).toMatchObject({ words: expect.stringMatching(mayBeOn) });
	expect(await seenThrough(stuck, async () => 'whole')).toMatchObject({ words: expect.stringMatching(mayBeOn) });
});

test('what is kept of a setting is what was sent of it', async () => {
	const kept: SweptReading[] = [];
	const ground = groundOf(
		{ setFrequency: async () => ({ ...done, sent: 455e3 }), setLevel: async () => ({ ...done, sent: 0.00101 }) },
		kept,
	);
	const hand = new SweepHand(ground, 'sweep', 1e-3);
	await hand.setLevel(0.001008);
	const settled = await hand.levelAt(455_040, 'curve');
	expect(settled.frequencyHz).toBe(455e3);
	expect(kept[0]).toMatchObject({ frequencyHz: 455e3, levelV: 0.00101 });
});
