import fc from 'fast-check';
import { expect, test } from 'vitest';
import { createRandom } from '#core/numeric/random.ts';
import { valuesAt } from '#core/receiver/bench-set.ts';
import { tm517 } from '#core/receiver/designs/tm-517.ts';
import { SteadyState } from '#core/receiver/operating-point.ts';
import { standardTone } from '#core/receiver/signal.ts';
import { tamperedSet } from '#core/receiver/truth.ts';
import { avcLaw, inputOf, outputOf } from './avc-law.ts';

/** A closed form with a knee at 0 dB: a decibel for a decibel far below it, a quarter of that far above. */
const kneeDb = (inputDb: number): number => inputDb - 0.75 * 10 * Math.log10(1 + 10 ** (inputDb / 10));

test('a law with a knee in closed form is turned back', () => {
	const steps = Array.from({ length: 25 }, (_, k) => -36 + 3 * k);
	const law = avcLaw(steps.map((inputDb) => ({ inputDb, outputDb: kneeDb(inputDb), uncertaintyDb: 0.001 })));
	if (!law) throw new Error('no law');
	fc.assert(
		fc.property(fc.double({ min: -36, max: 36, noNaN: true }), (inputDb) => {
			const back = inputOf(law, { value: kneeDb(inputDb), uncertainty: 0.001 });
			expect(Math.abs((back?.value ?? Number.NaN) - inputDb)).toBeLessThan(0.1);
		}),
	);
	// Far from the knee the slopes are 1 and 1/4 by definition.
	expect(law.places[0]?.slopeDbPerDb).toBeCloseTo(1, 2);
	expect(law.places.at(-1)?.slopeDbPerDb).toBeCloseTo(0.25, 2);
});

test('a reading outside the law has no input, and one from a flat part neither', () => {
	const law = avcLaw(
		[0, 10, 20, 30, 40].map((inputDb) => ({
			inputDb,
			outputDb: Math.min(inputDb, 20) + inputDb / 100,
			uncertaintyDb: 0.01,
		})),
	);
	if (!law) throw new Error('no law');
	expect(inputOf(law, { value: -1, uncertainty: 0.01 })).toBeNull();
	expect(inputOf(law, { value: 50, uncertainty: 0.01 })).toBeNull();
	expect(inputOf(law, { value: 20.35, uncertainty: 0.01 })).toBeNull();
	expect(inputOf(law, { value: 5, uncertainty: null })?.uncertainty).toBeNull();
});

test('an overloaded set ends the law where its reading falls', () => {
	const outputs = [0, 3, 5, 6.5, 7, 6];
	const law = avcLaw(outputs.map((outputDb, k) => ({ inputDb: 6 * k, outputDb, uncertaintyDb: 0.05 })));
	expect(law?.overloadDb).toBe(30);
	expect(law?.places).toHaveLength(5);
	expect(avcLaw(outputs.slice(3).map((outputDb, k) => ({ inputDb: 6 * k, outputDb, uncertaintyDb: 0.05 })))).toBeNull();
});

test('readings of a simulated set are turned back within 0.3 dB over 40 dB, and as well as they say', () => {
	let squares = 0;
	let count = 0;
	let worstDb = 0;
	const scatterDb = 0.03 / Math.sqrt(10);
	for (const seed of [11, 12, 13]) {
		const random = createRandom(seed);
		const steady = new SteadyState(valuesAt(tamperedSet(tm517, seed), 0, 0.05));
		const readDb = (inputDb: number, uncertaintyDb: number): number => {
			const signal = {
				frequencyHz: 455e3,
				...standardTone,
				into: 'converter grid',
				levelV: 10 ** (inputDb / 20),
			} as const;
			return 20 * Math.log10(steady.operatingPoint(signal).toneV) + uncertaintyDb * random.gaussian();
		};
		// Steps of 3 dB; each reading a second of frames, ten that scatter by 0.03 dB each.
		const steps = Array.from({ length: 17 }, (_, k) => -64 + 3 * k);
		const law = avcLaw(
			steps.map((inputDb) => ({ inputDb, outputDb: readDb(inputDb, scatterDb), uncertaintyDb: scatterDb })),
		);
		if (!law) throw new Error('no law');
		for (let k = 0; k < 60; k++) {
			const inputDb = -61 + 40 * random.uniform();
			const back = inputOf(law, { value: readDb(inputDb, scatterDb), uncertainty: scatterDb });
			if (back?.uncertainty === null || !back) throw new Error(`no input at ${inputDb}`);
			worstDb = Math.max(worstDb, Math.abs(back.value - inputDb));
			squares += ((back.value - inputDb) / back.uncertainty) ** 2;
			count++;
		}
	}
	expect(worstDb).toBeLessThan(0.3);
	// Chi squared per reading: 1 when the uncertainties are right.
	expect(squares / count).toBeGreaterThan(0.5);
	expect(squares / count).toBeLessThan(1.6);
});

test('what an input reads is the law the other way', () => {
	const law = avcLaw(
		[0, 3, 6, 9, 12, 15].map((inputDb) => ({ inputDb, outputDb: 10 * Math.log10(1 + inputDb), uncertaintyDb: 0.01 })),
	);
	if (!law) throw new Error('no law');
	for (const inputDb of [0, 1.3, 4.4, 8, 14.9, 15]) {
		const shown = outputOf(law, inputDb);
		expect(inputOf(law, { value: shown?.readingDb ?? Number.NaN, uncertainty: null })?.value).toBeCloseTo(inputDb, 6);
	}
	expect(outputOf(law, -0.1)).toBeNull();
	expect(outputOf(law, 15.1)).toBeNull();
});
