import { expect, test } from 'vitest';
import {
	coilFromResonances,
	dampedWidthHz,
	dampingResistor,
	qFromEdges,
	resonantCapacitanceF,
} from './tuned-circuit.ts';

const known = (value: number, uncertainty: number | null = 0) => ({ value, uncertainty });
const resonance = (megacycles: number, picofarads: number, share: number | null = 0) => ({
	frequencyHz: known(megacycles * 1e6),
	capacitanceF: known(picofarads * 1e-12, share === null ? null : picofarads * share * 1e-12),
});

// [grob] ex. 25-3, seen in transcription: 239 uH and 106 pF resonate at 1,000 kc.
test('a coil of 239 uH is tuned to 1,000 kc by 106 mmf', () => {
	expect(Math.abs(resonantCapacitanceF(239e-6, 1e6) * 1e12 - 106)).toBeLessThan(0.5);
});

// [helfrick-cooper] ex. 6-4, 6-5; [kalsi] ex. 10.2; [bakshi] ex. 6.15; [gupta-instruments] ex. 7.27: all seen in transcription.
test('published pairs of resonances give the published coils', () => {
	const printed = [
		[2, 460, 4, 100, 20, 13.19],
		[2, 450, 5, 60, 14.3, null],
		[1, 500, 2, 110, 20, 48.71],
		[8, 120, 12, 40, 24, 2.749],
		[1, 1530, 3, 162, 9, null],
	] as const;
	for (const [lowMc, lowPf, highMc, highPf, selfPf, microhenries] of printed) {
		const coil = coilFromResonances(resonance(lowMc, lowPf), resonance(highMc, highPf));
		expect(Math.abs(coil.selfCapacitanceF.value * 1e12 - selfPf)).toBeLessThan(0.05);
		if (microhenries !== null) expect(Math.abs((coil.inductanceH.value * 1e6) / microhenries - 1)).toBeLessThan(5e-4);
	}
});

// Closed form: Cd = (C1 - r^2 C2) / (r^2 - 1), so at r = 2 an error e1, e2 of the capacitors gives sqrt(e1^2 + 16 e2^2) / 3.
test('uncertain capacitors make an uncertain self-capacity', () => {
	const coil = coilFromResonances(resonance(2, 460, 0.01), resonance(4, 100, 0.01));
	expect((coil.selfCapacitanceF.uncertainty ?? 0) * 1e12).toBeCloseTo(Math.sqrt(4.6 ** 2 + 16) / 3, 3);
	expect(coilFromResonances(resonance(2, 460, null), resonance(4, 100)).inductanceH.uncertainty).toBeNull();
});

// [frenzel] ex. 2.17, seen in transcription: edges 7.93 and 8.07 Mc at 3 dB give 140 kc and Q 57.14 (there of 8 Mc, the mean of the edges).
test('edges of a published response give the published Q', () => {
	const edges = { lowHz: 7.93e6, highHz: 8.07e6, edgeUncertaintyHz: 1e3 };
	const q = qFromEdges({ ...edges, belowPeakDb: 10 * Math.log10(2) });
	expect(Math.abs(q.value - 57.14)).toBeLessThan(0.01);
	// A single circuit is sqrt(3) times as wide 6.02 dB down: the same edges there mean a Q sqrt(3) times as high.
	expect(qFromEdges({ ...edges, belowPeakDb: 20 * Math.log10(2) }).value / q.value).toBeCloseTo(Math.sqrt(3), 6);
	expect(q.uncertainty).toBeCloseTo((57.14 * Math.SQRT2) / 140, 2);
});

// [frenzel] ex. 2.22, seen in transcription: X 300 ohms, Rw 10 ohms, 10 Mc, wanted width 1 Mc: Rp 9,010, needed 3,000, shunt 4,497.5 ohms.
test('a published damping resistor comes out', () => {
	const damping = dampingResistor(300 / (2 * Math.PI * 10e6), 30, 10e6, 1e6);
	expect(damping.ownOhm).toBeCloseTo(9010, 6);
	expect(damping.neededOhm).toBeCloseTo(3000, 6);
	expect(Math.abs(damping.shuntOhm - 4497.5)).toBeLessThan(0.1);
	// By the same example's rules, 4.7 k and 9.01 k in parallel are 3,088.8 ohms: Q = 10.296, 971.3 kc wide.
	expect(dampedWidthHz(damping, 1e6, 4700) / 971.26e3).toBeCloseTo(1, 4);
	expect(() => dampingResistor(1e-3, 50, 455e3, 5e3)).toThrow(/invalid width/);
});
