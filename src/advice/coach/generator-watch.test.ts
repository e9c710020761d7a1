import { expect, test } from 'vitest';
import { createRandom } from '#core/numeric/random.ts';
import { noTrouble, receiverCurve, simulatedTurn } from '../../../test/simulated-turn.ts';
import { generatorChange, generatorChangeWords, type WatchedFrame } from './generator-watch.ts';

const steady = (count: number, levelDb: number, toneHz: number, seed = 1): WatchedFrame[] => {
	const { gaussian } = createRandom(seed);
	return Array.from({ length: count }, () => ({
		levelDb: levelDb + 0.03 * gaussian(),
		toneHz: toneHz + 0.1 * gaussian(),
	}));
};

test('an attenuator turned by 6 dB and a tone that moved are asked about', () => {
	const jumped = generatorChange([...steady(12, -20, 400), ...steady(3, -26, 400, 2)], 'turning', 0.03);
	expect(jumped?.kind).toBe('level jumped');
	if (jumped?.kind === 'level jumped') expect(jumped.byDb).toBeCloseTo(-6, 1);
	const moved = generatorChange([...steady(12, -20, 400), ...steady(5, -20, 408, 2)], 'turning', 0.03);
	expect(moved?.kind).toBe('tone moved');
	if (moved) expect(generatorChangeWords(moved)).toContain('The tone moved by 8 c');
});

test('a hand that turns through a peak by strokes and pauses is no change of the generator', () => {
	for (let seed = 0; seed < 60; seed++) {
		const frames: WatchedFrame[] = [];
		for (const { levelDb } of simulatedTurn(seed, noTrouble, receiverCurve(seed % 12))) {
			frames.push({ levelDb, toneHz: 400 });
			expect(generatorChange(frames, 'turning', 0.03), `seed ${seed}`).toBe(null);
		}
	}
});

test('with hands off a jump of 2 dB is asked about; a wandering level is not', () => {
	expect(generatorChange([...steady(5, -20, 400), ...steady(3, -18, 400)], 'hands off', 0.03)?.kind).toBe(
		'level jumped',
	);
	expect(generatorChange([...steady(5, -20, 400), ...steady(3, -18, 400)], 'turning', 0.03)).toBe(null);
	expect(generatorChange(steady(50, -20, 400), 'hands off', 0.03)).toBe(null);
});
