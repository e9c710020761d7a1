import { expect, test } from 'vitest';
import { createRandom } from '../numeric/random.ts';
import { levelJumps } from './level-jumps.ts';

/** Readings of a turn, ten a second, to and fro over a peak. */
function turn(seed: number, jumpDb: number): number[] {
	const random = createRandom(seed);
	return Array.from({ length: 120 }, (_, k) => {
		const turned = Math.sin((2 * Math.PI * k) / 60);
		const side = turned > 0.3 ? jumpDb : 0;
		return -20 - 3 * turned ** 2 + side + 0.03 * random.gaussian();
	});
}

test('a level that creeps has no jumps, whatever its seed', () => {
	for (let seed = 1; seed <= 50; seed++) expect(levelJumps(turn(seed, 0))).toBeNull();
});

test('a level that jumps at one place each time it is passed is told, with the size of the jump', () => {
	for (let seed = 1; seed <= 50; seed++) {
		const found = levelJumps(turn(seed, 6));
		expect(found?.count).toBe(4);
		expect(Math.abs((found?.sizeDb ?? 0) - 6)).toBeLessThan(0.5);
	}
});

test('one jump alone may be a hand that slipped', () => {
	const once = [...Array.from({ length: 30 }, () => -20), ...Array.from({ length: 30 }, () => -14)];
	expect(levelJumps(once)).toBeNull();
});
