import { type BenchSet, tuningAtMark, valuesAt } from './bench-set.ts';
import { SteadyState } from './operating-point.ts';
import { type GeneratorPlace, type SignalInto, standardTone } from './signal.ts';
import { oscillatorHz } from './values.ts';
import { oscillates, WeakGain } from './weak-gain.ts';

/** Output of broadcast receiver tests, 50 mW [kennedy]. */
const standardOutputW = 0.05;

/** Where on the air a set with its pointer on a mark hears best, hertz. */
export function receivedHz(set: BenchSet, dialHz: number): number {
	return new WeakGain(valuesAt(set, tuningAtMark(set, dialHz))).bestHz(set.design.ifHz);
}

/**
 * Gain for a weak signal that falls on the intermediate frequency as designed, mean over the set's test points, decibels.
 * The IF is held there because another one would lead the dial and the wave trap astray.
 */
export function gainAtIfDb(set: BenchSet): number {
	const { testHz, ifHz } = set.design;
	const sum = testHz.reduce((total, mark) => {
		const values = valuesAt(set, tuningAtMark(set, mark));
		return total + 20 * Math.log10(new WeakGain(values).at(oscillatorHz(values) - ifHz));
	}, 0);
	return sum / testHz.length;
}

/** Most that a generator gives, volts. */
const mostInputV = 2;

/**
 * Generator volts at a place and frequency that give an output at the voice coil, volts rms; `null` when 2 V do not.
 * The least such level where there are several.
 */
export function inputForOutputV(steady: SteadyState, place: GeneratorPlace, wantedV: number): number | null {
	const missAt = (lnLevelV: number): number =>
		Math.log(steady.operatingPoint({ ...place, levelV: Math.exp(lnLevelV) }).toneV / wantedV);
	let low = Math.log(1e-8);
	let high = low;
	do {
		low = high;
		high += 1;
		if (high > Math.log(mostInputV) && missAt(Math.log(mostInputV)) < 0) return null;
	} while (missAt(high) < 0);
	for (let step = 0; step < 40; step++) {
		const middle = (low + high) / 2;
		if (missAt(middle) < 0) low = middle;
		else high = middle;
		if (high - low < 1e-6) break;
	}
	return Math.exp((low + high) / 2);
}

/** The frequency near a place at which the set gives most at the voice coil, for an input of this level, hertz. */
export function bestNearHz(
	steady: SteadyState,
	into: SignalInto,
	levelV: number,
	nearHz: number,
	reachHz: number,
): number {
	let bestHz = nearHz;
	for (let stepHz = reachHz / 20; stepHz > 20; stepHz /= 5) {
		const around = Array.from({ length: 41 }, (_, k) => bestHz + (k - 20) * stepHz);
		const outputs = around.map(
			(frequencyHz) => steady.operatingPoint({ frequencyHz, ...standardTone, into, levelV }).toneV,
		);
		bestHz = around[outputs.indexOf(Math.max(...outputs))] as number;
	}
	return bestHz;
}

/** Volts rms at a voice coil that are the standard output in it. */
export function standardOutputV(voiceCoilOhm: number): number {
	return Math.sqrt(standardOutputW * voiceCoilOhm);
}

/**
 * Generator volts behind the dummy antenna for the standard output, pointer on a mark, generator where the set hears best, volume full up;
 * `null` when 2 V do not reach it or the set oscillates by itself.
 */
export function sensitivityV(set: BenchSet, dialHz: number): number | null {
	const values = valuesAt(set, tuningAtMark(set, dialHz));
	if (oscillates(values)) return null;
	const frequencyHz = new WeakGain(values).bestHz(set.design.ifHz);
	const wantedV = standardOutputV(values.audio.voiceCoilOhm);
	return inputForOutputV(new SteadyState(values), { frequencyHz, ...standardTone, into: 'antenna' }, wantedV);
}
