import { expect, test } from 'vitest';
import { noTrouble, simulatedCheck } from '../../../test/simulated-turn.ts';
import { disturbanceOf, leastToldDb } from './disturbance.ts';

test('the step of a hand is measured within its uncertainty, and the threshold is drawn from it', () => {
	for (let seed = 0; seed < 50; seed++) {
		const { offDb, onDb } = simulatedCheck(seed, { ...noTrouble, handDb: 0.4 });
		const found = disturbanceOf(offDb, onDb);
		if (!found) throw new Error('no disturbance');
		expect(Math.abs(found.stepDb.value - 0.4)).toBeLessThan(5 * (found.stepDb.uncertainty as number));
		// 0.3 dB and one and a half steps, by hand: 0.9 dB.
		expect(leastToldDb(found)).toBeCloseTo(0.9, 1);
	}
});

test('flutter counts on its own, and a quiet hand leaves the threshold where it is', () => {
	const quiet = simulatedCheck(1, noTrouble);
	expect(leastToldDb(disturbanceOf(quiet.offDb, quiet.onDb))).toBeLessThan(0.4);
	const shaking = simulatedCheck(1, { ...noTrouble, flutterDb: 0.6 });
	expect(leastToldDb(disturbanceOf(shaking.offDb, shaking.onDb))).toBeGreaterThan(1);
	expect(leastToldDb(null)).toBe(0.3);
});

test('less than three seconds of either tells nothing', () => {
	const { offDb, onDb } = simulatedCheck(1, noTrouble);
	expect(disturbanceOf(offDb.slice(0, 20), onDb)).toBe(null);
	expect(disturbanceOf(offDb, onDb.slice(0, 20))).toBe(null);
});
