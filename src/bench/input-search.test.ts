import { expect, test } from 'vitest';
import type { Done } from '#instruments/instrument.ts';
import { tuneForMost } from './input-search.ts';
import { SweepHand } from './sweep-hand.ts';

const done: Done = { kind: 'done' };
const wantedDb = -10;

/** Searches near 1,000 kc for a single tuned circuit, 1 / (1 + x^2) in power, with a meter that hears nothing below a level. */
async function searched(peakHz: number, halfWidthHz: number, deafBelowDb: number) {
	let frequencyHz = 0;
	let levelV = 1e-3;
	const setLevel = async (volts: number): Promise<Done> => {
		levelV = volts;
		return done;
	};
	const hand = new SweepHand(
		{
			generator: {
				name: 'scripted',
				setFrequency: async (hertz) => {
					frequencyHz = hertz;
					return done;
				},
				setLevel,
				raiseLevel: setLevel,
				modulate: async () => done,
				switchOn: async () => done,
				switchOff: async () => done,
			},
			meter: {
				name: 'scripted',
				read: async () => {
					const x = (frequencyHz - peakHz) / halfWidthHz;
					const value = 20 * Math.log10(levelV) + 40 - 10 * Math.log10(1 + x * x);
					return {
						kind: 'level',
						atMs: 0,
						instrument: 'scripted',
						reference: 'dBV',
						quantity: 'tone',
						trust: value < deafBelowDb ? 'too weak' : 'ok',
						levelDb: value < deafBelowDb ? null : { value, uncertainty: 0.05 },
					};
				},
			},
			waitMs: async () => undefined,
			keep: async () => undefined,
			agrees: async () => true,
			turn: async () => 'on',
			progress: () => undefined,
		},
		'search',
		levelV,
	);
	return tuneForMost(hand, 1000e3, 20e3, wantedDb);
}

test('a peak that all of the closer look hears is found within what is said of it', async () => {
	for (const offHz of [-400, 0, 250, 470]) {
		const found = await searched(1000e3 + offHz, 3e3, -60);
		expect(Math.abs((found?.value ?? 0) - 1000e3 - offHz)).toBeLessThan(3 * (found?.uncertainty ?? 0));
		expect(found?.uncertainty ?? 0).toBeLessThan(300);
	}
});

// Evenly spread over one kilocycle either side: 1 / sqrt(3) of it is the standard deviation.
test('a peak so narrow that few places hear it is known no better than they stand apart', async () => {
	for (const [offHz, halfWidthHz] of [
		[0, 60],
		[-300, 300],
		[250, 400],
		[470, 300],
	] as const) {
		const found = await searched(1000e3 + offHz, halfWidthHz, -23);
		expect(Math.abs((found?.value ?? 0) - 1000e3 - offHz)).toBeLessThan(501);
		expect(found?.uncertainty).toBeCloseTo(1000 / Math.sqrt(3), 6);
	}
});
