import { expect, test } from 'vitest';
import { loadedPeaking } from './loaded-peaking.ts';

// A parallel circuit's Q is R / X: with X = 1 / (w C) and R the winding's own in parallel with the part. Closed form.
test('the computed resistor brings a winding of 110 mmf and Q 80 to a Q of 10, and a part that can be bought comes near it', () => {
	const { computedOhm, fittedOhm, cautions } = loadedPeaking(455e3);
	const reactanceOhm = 1 / (2 * Math.PI * 455e3 * 110e-12);
	const ownOhm = 80 * reactanceOhm;
	const parallelOhm = 1 / (1 / ownOhm + 1 / computedOhm);
	expect(Math.abs(parallelOhm / reactanceOhm - 10)).toBeLessThan(0.05);
	expect(Math.abs(fittedOhm / computedOhm - 1)).toBeLessThan(0.1);
	expect(cautions.map(({ words }) => words).join(' ')).toMatch(/unplugged.*proved dead.*630 V/);
});
