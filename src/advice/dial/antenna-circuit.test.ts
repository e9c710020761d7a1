import { expect, test } from 'vitest';
import { type DialGround, DialModel } from '#core/estimate/dial-model.ts';
import { antennaHz, imageRejection, trimChoices } from './antenna-circuit.ts';

const ground: DialGround = {
	band: { lowHz: 540e3, highHz: 1600e3 },
	ifHz: 455e3,
	side: 'above',
	pointsHz: [600e3, 1000e3, 1400e3],
	network: 'gang',
	lowEnd: 'padder',
	hasCutPlates: false,
	readingM: 3e-4,
	travelM: 0.15,
};
const model = new DialModel(ground);
const at = <Point extends { readonly dialHz: number }>(curve: readonly Point[], kc: number): Point =>
	curve.reduce((best, one) => (Math.abs(one.dialHz - kc * 1e3) < Math.abs(best.dialHz - kc * 1e3) ? one : best));

// Independent evaluation: coil off 2 %, trimmer peaked at 1,400: 2.9 dB at 600 with Q 60, 5.6 with Q 100; 1.3 at 1,000; off 4 %: 6.7 at 600.
test.each([
	[0.02, 60, 600, 2.9],
	[0.02, 60, 1000, 1.3],
	[0.02, 100, 600, 5.6],
	[0.04, 60, 600, 6.7],
])('a coil %s off loses at Q %s and %s kc %s dB', (coilShare, q, kc, db) => {
	const tunedHz = antennaHz(model, coilShare)(kc * 1e3);
	const ratio = (kc * 1e3) / tunedHz;
	expect(10 * Math.log10(1 + (q * (ratio - 1 / ratio)) ** 2)).toBeCloseTo(db, 1);
});

// Independent evaluation, the circuit without tracking error, as with cut plates: from 3.1 dB to 2.8 for 2 % at Q 60, from 7.0 to 6.6 for 4 %.
test('a trimmer cannot cure a coil, and the figures say so', () => {
	const withoutError = new DialModel({ ...ground, hasCutPlates: true });
	for (const [coilShare, usualDb, compromiseDb] of [
		[0.02, 3.1, 2.8],
		[0.04, 7.0, 6.6],
	] as const) {
		const { usual, compromise, cured } = trimChoices(withoutError, { q: 60, coilShare }, []);
		expect(usual.worstLossDb).toBeCloseTo(usualDb, 1);
		expect(compromise.worstLossDb).toBeCloseTo(compromiseDb, 1);
		expect(cured.worstLossDb).toBeLessThan(1e-9);
	}
});

test('peaking for the stations that are wanted lowers what they lose, and the rest of the band pays', () => {
	const stationsHz = [640e3, 710e3, 850e3, 910e3];
	const { usual, compromise } = trimChoices(model, { q: 60, coilShare: 0.02 }, stationsHz);
	expect(compromise.stationsLossDb).toBeLessThan((usual.stationsLossDb ?? 0) - 0.2);
	expect(compromise.peakedAtHz).toBeGreaterThan(600e3);
	expect(compromise.peakedAtHz).toBeLessThan(1000e3);
	expect(at(compromise.curve, 1400).lossDb).toBeGreaterThan(at(usual.curve, 1400).lossDb);
	const one = trimChoices(model, { q: 60, coilShare: 0.02 }, [1000e3]).compromise;
	expect(one.stationsLossDb).toBeLessThan(0.01);
	expect(Math.abs(one.peakedAtHz - 1000e3)).toBeLessThan(2e3);
});

// Independent evaluation: one circuit, Q 60, IF 455: 42.1, 38.4, 35.9 dB at 600, 1,000, 1,400; [kennedy] ex. 7.1 gives the law.
test('the image is kept down less and less toward the high end', () => {
	const curve = imageRejection(model, { q: 60, coilShare: 0 }, 1);
	for (const [kc, db] of [
		[600, 42.1],
		[1000, 38.4],
		[1400, 35.9],
	] as const) {
		expect(Math.abs(at(curve, kc).rejectionDb - db)).toBeLessThan(0.5);
	}
	expect(at(imageRejection(model, { q: 60, coilShare: 0 }, 2), 1000).rejectionDb).toBeCloseTo(
		2 * at(curve, 1000).rejectionDb,
		6,
	);
});
