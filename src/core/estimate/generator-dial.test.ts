import { expect, test } from 'vitest';
import { tuningAtMark, valuesAt } from '#core/receiver/bench-set.ts';
import { tm517 } from '#core/receiver/designs/tm-517.ts';
import { factoryTurns } from '#core/receiver/factory.ts';
import { SetStream } from '#core/receiver/set-stream.ts';
import { measureTone } from '#core/signal/tone.ts';
import { dialFor, frequencyFromBeat, generatorDial, isWithinChecks, missedMoveHz, trueFor } from './generator-dial.ts';

const rateHz = 48e3;
const set = { design: tm517, faults: [], turns: factoryTurns(tm517), pointerSlipM: 0 };

/** Half a second of a set tuned to a station, a generator beside it, both without programme but for what is asked. */
function whistle(stationHz: number, generatorHz: number, stationDepth: number, seed: number): Float64Array {
	const values = valuesAt(set, tuningAtMark(set, stationHz), 0.1);
	const carrier = { toneHz: 250, depth: 0, into: 'antenna' } as const;
	const signals = [
		{ ...carrier, frequencyHz: stationHz, levelV: 1e-3, depth: stationDepth },
		{ ...carrier, frequencyHz: generatorHz, levelV: 0.5e-3 },
	];
	const stream = new SetStream(values, signals, rateHz, seed);
	stream.fill(new Float64Array(rateHz * 0.5));
	const samples = new Float64Array(rateHz * 0.5);
	stream.fill(samples);
	return samples.map((volts) => volts / 4);
}

test('a beat heard in the set gives the generator to 20 c at 1 Mc', () => {
	for (const [beatHz, side, stationDepth] of [
		[730, 'above', 0],
		[1240, 'below', 0],
		// Some programme goes on beside the whistle.
		[615, 'above', 0.1],
	] as const) {
		const generatorHz = 1e6 + (side === 'above' ? beatHz : -beatHz);
		const { toneHz } = measureTone(whistle(1e6, generatorHz, stationDepth, 5), rateHz, null);
		if (!toneHz) throw new Error('no beat');
		const found = frequencyFromBeat(1e6, 1, toneHz, side);
		expect(Math.abs(found.value - generatorHz)).toBeLessThan(20);
	}
});

test('a harmonic divides the beat and its uncertainty', () => {
	// The second harmonic of 500.35 kc is 1,000.7 kc: a beat of 700 c.
	expect(frequencyFromBeat(1e6, 2, { value: 700, uncertainty: 2 }, 'above')).toEqual({ value: 500350, uncertainty: 1 });
	expect(frequencyFromBeat(1e6, 2, { value: 700, uncertainty: null }, 'below')).toEqual({
		value: 499650,
		uncertainty: null,
	});
});

test('a whistle that passes zero beat moves as its harmonic does; what a dial is set to badly is allowed for', () => {
	expect(missedMoveHz(2, { fromHz: 800, toHz: 1200 }, 1e3, 0)).toBeNull();
	expect(missedMoveHz(2, { fromHz: 800, toHz: 1800 }, 1e3, 0)).toBe(2e3);
	expect(missedMoveHz(2, { fromHz: 800, toHz: 1800 }, 1e3, 200)).toBeNull();
});

test('a dial that bends is corrected between its checks, within what it says', () => {
	// A condenser's end plates bent: an error that goes as a parabola, 4 kc at 600 kc, 0 at 400 and 800 kc.
	const errorHz = (dialHz: number): number => 4e3 * (1 - ((dialHz - 600e3) / 200e3) ** 2);
	const checks = [400e3, 500e3, 600e3, 700e3, 800e3].map((dialHz) => ({
		dialHz,
		trueHz: dialHz + errorHz(dialHz),
		uncertaintyHz: 10,
		ageS: 0,
	}));
	const dial = generatorDial(checks);
	expect(dial.marks.map(({ errorHz: found }) => found)).toEqual([0, 3000, 4000, 3000, 0]);
	for (let dialHz = 410e3; dialHz < 800e3; dialHz += 30e3) {
		const found = dialFor(dial, dialHz + errorHz(dialHz));
		if (!found || found.uncertainty === null) throw new Error('no correction');
		expect(Math.abs(found.value - dialHz)).toBeLessThan(4 * found.uncertainty);
		expect(Math.abs(found.value - dialHz)).toBeLessThan(300);
	}
	// Outside the checks the correction stays in proportion, and says how little it is worth.
	expect(isWithinChecks(dial, 900e3)).toBe(false);
	const outside = dialFor(dial, 900e3);
	expect(trueFor(dial, outside?.value ?? 0).value).toBeCloseTo(900e3, 6);
	expect(outside?.uncertainty).toBeGreaterThan(1e3);
	expect(dialFor(generatorDial([]), 900e3)).toBeNull();
});

test('checks of one mark are made one, the better known counting more', () => {
	const dial = generatorDial([
		{ dialHz: 1e6, trueHz: 1_000_100, uncertaintyHz: 10, ageS: 0 },
		{ dialHz: 1e6, trueHz: 1_000_150, uncertaintyHz: 20, ageS: 0 },
	]);
	// Weights 4 to 1: 100 + 50 / 5.
	expect(dial.marks[0]?.errorHz).toBeCloseTo(110, 6);
	expect(dial.marks[0]?.uncertaintyHz).toBeCloseTo(10 / Math.sqrt(1.25), 6);
	expect(dial.betweenHz).toBeNull();
});

const check = (dialHz: number, trueHz: number, ageS = 0) => ({ dialHz, trueHz, uncertaintyHz: 300, ageS });

test('a generator is believed at its checks and between them in proportion, and its dial is found again', () => {
	const dial = generatorDial([check(1400e3, 1386e3), check(600e3, 606e3)]);
	expect(trueFor(dial, 600e3).value).toBeCloseTo(606e3, 6);
	expect(trueFor(dial, 1400e3).value).toBeCloseTo(1386e3, 6);
	// Half way the error is half way from 6 to -14 kc.
	expect(trueFor(dial, 1000e3).value).toBeCloseTo(996e3, 6);
	expect(trueFor(dial, 550e3).value).toBeCloseTo(550e3 * 1.01, 6);
	expect(dialFor(dial, trueFor(dial, 850e3).value)?.value).toBeCloseTo(850e3, 3);
});

// [eddystone-659]: few service generators are better than 1 %.
test('what was not checked, lies far from a check or is old is worth less', () => {
	const spreadHz = (ageS: number, dialHz: number): number =>
		trueFor(generatorDial([check(1000e3, 1001e3, ageS)]), dialHz).uncertainty as number;
	expect(trueFor(generatorDial([]), 1000e3)).toEqual({ value: 1000e3, uncertainty: 10e3 });
	expect(spreadHz(0, 1000e3)).toBeCloseTo(300, 6);
	expect(spreadHz(730 * 86_400, 1000e3)).toBeGreaterThan(600);
	expect(spreadHz(0, 1600e3)).toBeGreaterThan(5e3);
	expect(spreadHz(0, 1600e3)).toBeLessThanOrEqual(Math.hypot(16e3, 300));
});
