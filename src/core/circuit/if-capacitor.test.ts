import { expect, test } from 'vitest';
import { type IfWinding, ifCapacitor } from './if-capacitor.ts';

// 1.1 mH at 455 kc: closed form C = 1 / (w^2 L) = 111.23 pF in all.
const winding: IfWinding = {
	frequencyHz: 455e3,
	inductanceH: 1.1e-3,
	inductanceUncertaintyShare: 0,
	straysF: 15e-12,
	straysUncertaintyF: 0,
	adjuster: { kind: 'trimmer', rangeF: { least: 5e-12, most: 45e-12 } },
};
const totalF = 1 / ((2 * Math.PI * 455e3) ** 2 * 1.1e-3);

test('the fixed capacitor puts the peak in the middle of the trimmer', () => {
	const { wantedF, usableF, marginF, canPeak } = ifCapacitor(winding, null, 0);
	expect(wantedF + 25e-12 + 15e-12).toBeCloseTo(totalF, 18);
	expect(usableF.most - usableF.least).toBeCloseTo(40e-12, 18);
	expect(marginF).toBeCloseTo(20e-12, 18);
	expect(canPeak).toBe(true);
});

test('the margin is eaten by tolerance, inductance and strays together', () => {
	// 100 mmf is 24.2 mmf above the most usable value (111.2 - 15 - 5 = 91.2): no peak.
	expect(ifCapacitor(winding, 100e-12, 0).marginF * 1e12).toBeCloseTo(111.2278 - 15 - 5 - 100, 2);
	expect(ifCapacitor(winding, 100e-12, 0).canPeak).toBe(false);
	const unsure = { ...winding, inductanceUncertaintyShare: 0.02, straysUncertaintyF: 2e-12 };
	const { marginF } = ifCapacitor(unsure, 68e-12, 0.1);
	// By hand: above, the whole at 1.04 L less 19 of strays and 5 of trimmer, against 74.8; below, the whole at 0.96 L less 11 and 45, against 61.2. The lower one is the tighter.
	const above = 111.2278 / 1.04 - 19 - 5 - 74.8;
	const below = 61.2 - (111.2278 / 0.96 - 11 - 45);
	expect(marginF * 1e12).toBeCloseTo(Math.min(above, below), 2);
});

// Closed form: a core that moves L by 15 % moves the needed C by 1/1.15 and 1/0.85 of the whole.
test('a core of 15 % reaches over a known range of capacitors', () => {
	const slug: IfWinding = { ...winding, adjuster: { kind: 'slug', reachShare: 0.15 } };
	const { usableF } = ifCapacitor(slug, null, 0);
	expect(usableF.least).toBeCloseTo(totalF / 1.15 - 15e-12, 18);
	expect(usableF.most).toBeCloseTo(totalF / 0.85 - 15e-12, 18);
});
