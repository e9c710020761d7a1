import { describe, expect, test } from 'vitest';
import { bestTiePoints } from '#core/circuit/tracking-curve.ts';
import { createRandom } from '#core/numeric/random.ts';
import { tm517 } from '#core/receiver/designs/tm-517.ts';
import { type Disturbance, DisturbedSet, usualDisturbance } from '../../../test/disturbed-set.ts';
import { fitDial } from './dial-fit.ts';
import { type DialGround, DialModel, soundState } from './dial-model.ts';
import { DialScale } from './dial-scale.ts';

const sound: Disturbance = { ...soundState };
const marksHz = [550, 650, 800, 1000, 1200, 1400, 1550].map((kc) => kc * 1e3);

function groundFor(readingM: number): DialGround {
	const set = new DisturbedSet(tm517, sound);
	const { lowHz, highHz } = tm517.band;
	return {
		band: tm517.band,
		ifHz: tm517.ifHz,
		side: 'above',
		// What the design was drawn for.
		pointsHz: [600e3, 1000e3, 1400e3],
		network: 'gang',
		lowEnd: 'padder',
		hasCutPlates: false,
		readingM,
		travelM: set.travelM(lowHz, highHz),
		marks: [540, 600, 800, 1000, 1200, 1400, 1600].map((kc) => ({
			dialHz: kc * 1e3,
			atM: set.travelM(lowHz, kc * 1e3),
		})),
	};
}

const readingsOf = (off: Partial<Disturbance>) => {
	const set = new DisturbedSet(tm517, { ...sound, ...off });
	return marksHz.map((dialHz) => ({ dialHz, heardHz: set.heardHz(dialHz), heardUncertaintyHz: 200, pass: 0 }));
};

// Closed form: 1 % of coil is half a per cent of the oscillator: 1,055 kc gives 5.3, 1,855 kc gives 9.3.
// The others were computed independently for a 365 mmf gang: padder 2.2 and 1.1 kc for each per cent; trimmer 0.8 and 10.2 kc for each mmf on a set of other strays, so that a seventh is allowed.
test('each fault moves the dial by what was computed for it', () => {
	const model = new DialModel({ ...groundFor(3e-4), band: { lowHz: 540e3, highHz: 1600e3 }, marks: [] });
	const moved = (change: Partial<Disturbance>) =>
		[600e3, 1400e3].map((dialHz) => model.errorHz({ ...soundState, ...change }, dialHz) / 1e3);
	const near = (change: Partial<Disturbance>, expected: readonly number[], within: number) => {
		for (const [place, kc] of moved(change).entries()) {
			expect(Math.abs(kc - (expected[place] as number))).toBeLessThan(within);
		}
	};
	near({ coilShare: -0.01 }, [5.3, 9.3], 0.1);
	near({ padderShare: -0.01 }, [2.2, 1.1], 0.15);
	near({ trimmerF: -0.1e-12 }, [0.08, 1.02], 0.15);
	near({ ifOffHz: 9.4e3 }, [-9.4, -9.4], 1e-6);
});

// Short-wave bands as they are printed on dials: 13.7 to 51 m, 16 to 50 m, 6 to 22 Mc, 2 to 7 Mc; beside the broadcast band.
test('a dial of any band that sets have is made, with the trimmer at either place', () => {
	const bandsHz: [number, number][] = [
		[300e6 / 51, 300e6 / 13.7],
		[300e6 / 50, 300e6 / 16],
		[6e6, 22e6],
		[2e6, 7e6],
		[540e3, 1600e3],
	];
	for (const [lowHz, highHz] of bandsHz) {
		const band = { lowHz, highHz };
		for (const ifHz of [110e3, 175e3, 455e3, 470e3])
			for (const network of ['gang', 'coil'] as const) {
				const pointsHz = bestTiePoints(band, ifHz, 'above', 'kilocycles');
				const ground = { ...groundFor(3e-4), band, ifHz, pointsHz, network, marks: [] };
				// Three points are tied: between them the oscillator is off by what three-point tracking leaves.
				for (const dialHz of pointsHz)
					expect(Math.abs(new DialModel(ground).errorHz(soundState, dialHz))).toBeLessThan(1);
			}
	}
});

test('a scale goes through its measured marks and back', () => {
	const scale = new DialScale({ lowHz: 540e3, highHz: 1600e3 }, 0.15, [
		{ dialHz: 600e3, atM: 0.02 },
		{ dialHz: 1000e3, atM: 0.09 },
		{ dialHz: 1400e3, atM: 0.13 },
	]);
	expect(scale.placeM(1000e3)).toBeCloseTo(0.09, 12);
	for (const dialHz of [540e3, 777e3, 1600e3]) expect(scale.dialHz(scale.placeM(dialHz))).toBeCloseTo(dialHz, 3);
	expect(
		() =>
			new DialScale({ lowHz: 1, highHz: 2 }, 1, [
				{ dialHz: 2, atM: 0 },
				{ dialHz: 3, atM: 0 },
			]),
	).toThrow('invalid marks');
});

// The set is simulated as a circuit that knows nothing of how dials are judged.
describe.each([
	['trimmer', { trimmerF: 4e-12 }, 'trimmerF'],
	['trimmer the other way', { trimmerF: -4e-12 }, 'trimmerF'],
	['padder', { padderShare: 0.08 }, 'padderShare'],
	['IF', { ifOffHz: 10e3 }, 'ifOffHz'],
] as const)('a set whose %s is off', (_, off, key) => {
	test('is found to have that fault, of its size, with a pointer read to 0.1 mm', () => {
		const fit = fitDial(new DialModel(groundFor(1e-4)), readingsOf(off));
		const truth = (off as Record<string, number>)[key] as number;
		expect(Math.abs(fit.state[key] - truth)).toBeLessThan(Math.max(2.5 * fit.uncertainty[key], 0.05 * Math.abs(truth)));
		expect(Math.abs(fit.state[key])).toBeGreaterThan(0.6 * Math.abs(truth));
		expect(fit.alone[0]?.culprit).toBe(key);
	});
});

test('coil and pointer look alike from the dial', () => {
	const fit = fitDial(new DialModel(groundFor(3e-4)), readingsOf({ coilShare: 0.01 }));
	// Computed independently: with both free, seven marks know the coil to some per cent only; what is said rests on what is usual.
	expect(fit.uncertainty.coilShare).toBeGreaterThan(0.004);
	expect(fit.uncertainty.pointerM).toBeGreaterThan(0.4e-3);
});

test('the stated uncertainty of the error at a mark covers the truth about two times in three', () => {
	const model = new DialModel(groundFor(3e-4));
	let covered = 0;
	let asked = 0;
	for (let seed = 1; seed <= 40; seed++) {
		const random = createRandom(seed);
		const off = usualDisturbance(random);
		const set = new DisturbedSet(tm517, off);
		const points = marksHz.map((dialHz) => ({
			dialHz,
			heardHz: set.heardHz(dialHz, 3e-4 * random.gaussian()) + 200 * random.gaussian(),
			heardUncertaintyHz: 200,
			pass: 0,
		}));
		const fit = fitDial(model, points);
		const places = [600e3, 1100e3, 1500e3];
		for (const [place, { value, uncertainty }] of fit.errorsOf(fit.state, places).errors.entries()) {
			const dialHz = places[place] as number;
			asked++;
			if (Math.abs(value - (set.heardHz(dialHz) - dialHz)) < (uncertainty as number)) covered++;
		}
	}
	// 120 answers that hang together by threes: 0.68 within about 0.08.
	expect(covered / asked).toBeGreaterThan(0.5);
	expect(covered / asked).toBeLessThan(0.86);
});
