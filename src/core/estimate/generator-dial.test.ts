import { expect, test } from 'vitest';
import { tuningAtMark, valuesAt } from '#core/receiver/bench-set.ts';
import { tm517 } from '#core/receiver/designs/tm-517.ts';
import { factoryTurns } from '#core/receiver/factory.ts';
import { SetStream } from '#core/receiver/set-stream.ts';
import { measureTone } from '#core/signal/tone.ts';
import { dialFor, frequencyFromBeat, generatorDial } from './generator-dial.ts';

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

test('a dial that bends is corrected between its checks, within what it says', () => {
	// A condenser's end plates bent: an error that goes as a parabola, 4 kc at 600 kc, 0 at 400 and 800 kc.
	const errorHz = (dialHz: number): number => 4e3 * (1 - ((dialHz - 600e3) / 200e3) ** 2);
	const checks = [400e3, 500e3, 600e3, 700e3, 800e3].map((dialHz) => ({
		dialHz,
		trueHz: dialHz + errorHz(dialHz),
		uncertaintyHz: 10,
	}));
	const dial = generatorDial(checks);
	expect(dial.checks.map(({ errorHz: found }) => found)).toEqual([0, 3000, 4000, 3000, 0]);
	for (let dialHz = 410e3; dialHz < 800e3; dialHz += 30e3) {
		const found = dialFor(dial, dialHz + errorHz(dialHz));
		if (!found || found.uncertainty === null) throw new Error('no correction');
		expect(Math.abs(found.value - dialHz)).toBeLessThan(4 * found.uncertainty);
		expect(Math.abs(found.value - dialHz)).toBeLessThan(300);
	}
	expect(dialFor(dial, 900e3)).toBeNull();
});

test('checks of one mark are made one, the better known counting more', () => {
	const dial = generatorDial([
		{ dialHz: 1e6, trueHz: 1_000_100, uncertaintyHz: 10 },
		{ dialHz: 1e6, trueHz: 1_000_150, uncertaintyHz: 20 },
	]);
	// Weights 4 to 1: 100 + 50 / 5.
	expect(dial.checks[0]?.errorHz).toBeCloseTo(110, 6);
	expect(dial.checks[0]?.uncertaintyHz).toBeCloseTo(10 / Math.sqrt(1.25), 6);
	expect(dial.betweenHz).toBeNull();
});
