import { describe, expect, test } from 'vitest';
import { broadcast, trackingMissesHz, usualTies as usual, usualGang } from '../../../test/tracking-resonances.ts';
import { antennaLossDb, bestTiePoints, type TiePoints, trackingCurve, trackingPeaks } from './tracking-curve.ts';
import { paddedFarad, trackingParts } from './tracking-parts.ts';
import { cutPlates, twoPointPadder, twoPointTrimmer } from './two-point-tracking.ts';

// Exact consequences of the formulas of [terman-tracking], computed independently of this project.
test('the error curve through 600, 1,000 and 1,400 kc at an IF of 455 kc is the computed one', () => {
	const { errorHz } = trackingCurve(usual, 455e3, 'above');
	const expected = [
		[540, 4.577],
		[756, -3.991],
		[1220, 2.942],
		[1600, -11.657],
	] as const;
	for (const [dialKc, errorKc] of expected) expect(errorHz(dialKc * 1e3) / 1e3).toBeCloseTo(errorKc, 3);
	for (const tie of usual) expect(Math.abs(errorHz(tie))).toBeLessThan(1e-6);
	const other = trackingCurve([600e3, 950e3, 1500e3], 455e3, 'above').errorHz;
	expect(other(540e3) / 1e3).toBeCloseTo(4.459, 3);
	expect(other(1260e3) / 1e3).toBeCloseTo(5.632, 3);
});

// Computed independently: band, IF, best tie points and worst error, kc.
describe.each([
	[540, 1600, 455, [596.7, 1010.5, 1513.5], 4.675],
	[540, 1700, 455, [601.2, 1051.2, 1604.5], 5.524],
	[550, 1500, 455, [601.8, 975.7, 1423.6], 3.692],
	[600, 1500, 455, [649.9, 1007.0, 1428.6], 2.905],
	[540, 1600, 262, [595.1, 1006.8, 1513.4], 3.331],
	[540, 1600, 175, [594.2, 1004.7, 1513.3], 2.484],
	[526.5, 1606.5, 470, [584.1, 1004.6, 1518.0], 5.104],
	[5700, 18000, 455, [6292, 10996, 16984], 9.2],
] as const)('the band from %s to %s kc at an IF of %s kc', (lowKc, highKc, ifKc, pointsKc, worstKc) => {
	const band = { lowHz: lowKc * 1e3, highHz: highKc * 1e3 };
	test('has its best tie points and worst error where they were computed', () => {
		const points = bestTiePoints(band, ifKc * 1e3, 'above', 'kilocycles');
		for (const [place, point] of points.entries()) {
			expect(Math.abs(point / 1e3 - (pointsKc[place] as number))).toBeLessThan(1);
		}
		for (const { errorHz } of trackingPeaks(band, points, ifKc * 1e3, 'above')) {
			expect(Math.abs(Math.abs(errorHz) / 1e3 - worstKc)).toBeLessThan(0.01);
		}
	});

	test('cannot be made better by moving any tie point', () => {
		const points = bestTiePoints(band, ifKc * 1e3, 'above', 'kilocycles');
		const worst = (at: TiePoints): number =>
			Math.max(...trackingPeaks(band, at, ifKc * 1e3, 'above').map(({ errorHz }) => Math.abs(errorHz)));
		for (const place of [0, 1, 2]) {
			for (const share of [0.99, 1.01]) {
				const moved = points.map((point, k) => (k === place ? point * share : point)) as unknown as TiePoints;
				expect(worst(moved)).toBeGreaterThan(worst(points));
			}
		}
	});
});

// Computed independently: 579, 917 and 1,482 kc lose 1.4 dB at worst at Q 60, 3.1 dB at Q 100.
test('tie points for the least loss share it evenly', () => {
	const points = bestTiePoints(broadcast, 455e3, 'above', 'loss');
	for (const [place, kc] of [579, 917, 1482].entries()) {
		expect(Math.abs((points[place] as number) / 1e3 - kc)).toBeLessThan(1);
	}
	const { errorHz } = trackingCurve(points, 455e3, 'above');
	for (const [q, worstDb] of [
		[60, 1.4],
		[100, 3.1],
	] as const) {
		const losses = Array.from({ length: 500 }, (_, k) => 540e3 + (k * 1060e3) / 499).map((dialHz) =>
			antennaLossDb(q, dialHz, dialHz + errorHz(dialHz)),
		);
		expect(Math.abs(Math.max(...losses) - worstDb)).toBeLessThan(0.1);
	}
});

// The formulas stand between two independent witnesses: tie points in, resonances by ngspice out.
test('coil, padder and trimmer resonate in ngspice where the three tie points and the curve between say', () => {
	const missesHz = trackingMissesHz();
	expect(missesHz).toHaveLength(42);
	expect(Math.max(...missesHz)).toBeLessThan(10);
});

// [quan-2013]: 270 mmf sections, 330 uH, oscillator coil 180 uH, padder about 300 to 330 mmf; strays and points not given: within a fifth.
test('a published hobby set is near what three-point tracking asks for', () => {
	const points = bestTiePoints(broadcast, 455e3, 'above', 'kilocycles');
	const gangF = 1 / ((2 * Math.PI * 540e3) ** 2 * 330e-6) - 5e-12;
	const given = { gangF, straysF: 5e-12, network: 'gang', otherStraysF: 0 } as const;
	const made = trackingParts(points, broadcast, 455e3, 'above', given);
	if (made.kind === 'refused') throw new Error(made.why);
	expect(Math.abs(made.padded.inductanceH / 180e-6 - 1)).toBeLessThan(0.2);
	expect(Math.abs(made.padded.padderF / 315e-12 - 1)).toBeLessThan(0.2);
});

test('an oscillator below the signal has its padder in the signal circuit and still goes through the tie points', () => {
	const band = { lowHz: 1700e3, highHz: 5500e3 };
	const points: TiePoints = [1900e3, 3300e3, 5200e3];
	const { oscillatorHz, errorHz } = trackingCurve(points, 455e3, 'below');
	const given = { gangF: 365e-12, straysF: 20e-12, network: 'gang', otherStraysF: 0 } as const;
	const made = trackingParts(points, band, 455e3, 'below', given);
	if (made.kind === 'refused') throw new Error(made.why);
	for (const signalHz of [1700e3, 1900e3, 2500e3, 5200e3]) {
		const sectionF = 1 / ((2 * Math.PI * oscillatorHz(signalHz)) ** 2 * made.straightH) - 20e-12;
		const signalF = paddedFarad(made.padded, sectionF, 'gang', 0);
		const tunedHz = 1 / (2 * Math.PI * Math.sqrt(made.padded.inductanceH * signalF));
		const heardHz = oscillatorHz(signalHz) + 455e3;
		if (points.includes(signalHz)) expect(Math.abs(tunedHz - signalHz)).toBeLessThan(1);
		expect(Math.abs(heardHz - signalHz - errorHz(signalHz))).toBeLessThan(1e-3);
	}
});

test('what cannot be made is refused for its reason', () => {
	const why = (given: Partial<Parameters<typeof trackingParts>[4]>, side: 'above' | 'below' = 'above') => {
		const made = trackingParts(usual, broadcast, 455e3, side, { ...usualGang, ...given });
		return made.kind === 'refused' ? made.why : made.kind;
	};
	expect(why({})).toBe('parts');
	expect(why({ straysF: 200e-12 })).toBe('gang too small');
	expect(why({ network: 'coil', otherStraysF: 60e-12 })).toBe('trimmer');
	expect(
		trackingParts([500e3, 600e3, 700e3], { lowHz: 450e3, highHz: 750e3 }, 455e3, 'below', usualGang),
	).toMatchObject({ why: 'below the IF' });
});

// [scilab-1409] ex. 8.5, transcription: 138.79 mmf and 0.365 mH with its early rounding; without it 138.61 and 365.48.
test('the padder-only form gives the published oscillator, and its true error between is large', () => {
	const { padderF, inductanceH, errorHz } = twoPointPadder({
		lowHz: 400e3,
		highHz: 1650e3,
		ifHz: 455e3,
		mostF: 300e-12,
	});
	expect(Math.abs((padderF as number) / 138.79e-12 - 1)).toBeLessThan(3e-3);
	expect(Math.abs(inductanceH / 365e-6 - 1)).toBeLessThan(3e-3);
	expect(Math.abs(errorHz(1650e3))).toBeLessThan(1e-3);
	// Circuit evaluation: 60.8 kc low at 1,000 kc.
	expect(errorHz(1000e3) / 1e3).toBeCloseTo(-60.8, 1);
});

// Circuit evaluation says that the trimmer-only form errs upward between its points, the padder-only one downward.
test('the trimmer-only form is right at its two points and high between', () => {
	const { errorHz, trimmerF } = twoPointTrimmer({ lowHz: 550e3, highHz: 1600e3, ifHz: 455e3, mostF: 350e-12 });
	expect(trimmerF as number).toBeGreaterThan(0);
	expect(Math.abs(errorHz(550e3))).toBeLessThan(1e-3);
	expect(Math.abs(errorHz(1600e3))).toBeLessThan(1e-3);
	expect(errorHz(1000e3)).toBeGreaterThan(50e3);
});

test('a section cut to the ideal law keeps the oscillator one IF above the dial', () => {
	const { inductanceH, sectionF } = cutPlates(540e3, 455e3, 140e-12, 20e-12);
	for (const dialHz of [540e3, 900e3, 1600e3]) {
		const oscillatorHz = 1 / (2 * Math.PI * Math.sqrt(inductanceH * (sectionF(dialHz) + 20e-12)));
		expect(Math.abs(oscillatorHz - dialHz - 455e3)).toBeLessThan(1e-3);
	}
	expect(sectionF(540e3)).toBeCloseTo(140e-12, 20);
});

// Transcriptions: [kennedy] ex. 7.1, 1,000 kc, IF 455 kc, Q 100: 138.6 times. [blake] ex. 6.5, 590 kc, Q 40: 38.687 dB. [beasley-miller] ex. 7.6, 680 kc, Q 60: 41.186 dB.
test('one tuned circuit keeps the image down by as much as the published examples say', () => {
	expect(10 ** (antennaLossDb(100, 1000e3, 1910e3) / 20)).toBeCloseTo(138.6, 1);
	expect(antennaLossDb(40, 590e3, 1500e3)).toBeCloseTo(38.687, 2);
	expect(antennaLossDb(60, 680e3, 1590e3)).toBeCloseTo(41.186, 2);
});
