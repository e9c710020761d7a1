import { SteadyState } from './operating-point.ts';
import { bestNearHz, inputForOutputV, standardOutputV } from './sensitivity.ts';
import { type GeneratorPlace, standardTone } from './signal.ts';
import { stageGainsDb } from './stage-gains.ts';
import { oscillatorHz, type SetValues } from './values.ts';
import { oscillates, WeakGain } from './weak-gain.ts';

/** What the standard tests would find on a set by its circuits alone; `null` where 2 V do not reach it. */
export interface TestFigures {
	/** Generator volts for the standard output where the set hears best, by dial mark. */
	readonly sensitivityV: readonly (number | null)[];
	/** Where the set hears best less the mark, hertz. */
	readonly dialErrorHz: readonly number[];
	/** Widths of the whole set at the middle mark where 2, 10, 100 and 1,000 times the input are needed; outermost edges. */
	readonly widthsHz: readonly (number | null)[];
	/** Input a channel below and above the middle of the narrowest width against the input at the best, decibels. */
	readonly adjacentDb: readonly (number | null)[];
	/** Image, by dial mark: input there against the input at the best, decibels. */
	readonly imageDb: readonly (number | null)[];
	/** Signal at the intermediate frequency, at the lowest mark, decibels. */
	readonly ifDb: number | null;
	/** How far the input may fall from 0.1 V until the output is 10 dB down, decibels. */
	readonly avcDb: number | null;
	/** Gains from place to place at the middle mark, and from the last of them to the output, decibels. */
	readonly stageGainsDb: readonly (number | null)[];
}

/** Inputs at which widths are taken, times the input at the best: 6, 20, 40 and 60 dB. */
export const widthRatios = [2, 10, 100, 1000] as const;
/** The input from which the AVC test falls, volts (one of several usages). */
export const strongInputV = 0.1;
/** Fall of the output in that test, decibels. */
export const avcFallDb = 10;
/** Edges of a width are sought from this far off the best inward, hertz (chosen: farther than any IF strip reaches at 60 dB). */
export const farthestEdgeHz = 75e3;
const most = 2;

const decibels = (ratio: number): number => 20 * Math.log10(ratio);
const overDb = (inputV: number | null, referenceV: number | null): number | null =>
	inputV === null || referenceV === null ? null : decibels(inputV / referenceV);

/** The outermost place on one side at which an output is reached, coming in from far. */
function edgeHz(reaches: (offHz: number) => boolean, side: 1 | -1): number | null {
	const stepHz = 500;
	if (reaches(side * farthestEdgeHz)) return null;
	let offHz = farthestEdgeHz;
	while (offHz > 0 && !reaches(side * offHz)) offHz -= stepHz;
	let inside = offHz;
	let outside = offHz + stepHz;
	for (let halving = 0; halving < 12; halving++) {
		const middleHz = (inside + outside) / 2;
		if (reaches(side * middleHz)) inside = middleHz;
		else outside = middleHz;
	}
	return side * ((inside + outside) / 2);
}

/**
 * The figures of the standard tests by a set's circuits, without meter, generator or hand.
 * @param valuesAt the set with its pointer on a mark and its volume control at a place
 * @param marksHz three dial marks, low to high
 */
export function testFigures(
	valuesAt: (dialHz: number, volume: number) => SetValues,
	marksHz: readonly number[],
	channelHz: number,
): TestFigures {
	const marks = marksHz.map((dialHz) => {
		const values = valuesAt(dialHz, 1);
		const steady = new SteadyState(values);
		const wantedV = standardOutputV(values.audio.voiceCoilOhm);
		const inputV = (frequencyHz: number): number | null =>
			inputForOutputV(steady, { frequencyHz, ...standardTone, into: 'antenna' }, wantedV);
		const bestHz = new WeakGain(values).bestHz(values.ifHz);
		const sensitivityV = oscillates(values) ? null : inputV(bestHz);
		const imageHz = 2 * oscillatorHz(values) - bestHz;
		return { dialHz, values, steady, wantedV, inputV, bestHz, sensitivityV, imageHz };
	});
	const middle = marks[1];
	const lowest = marks[0];
	if (!middle || !lowest) throw new Error(`invalid marks: ${marksHz.length}, expected 3`);
	const { steady, wantedV, bestHz, sensitivityV } = middle;
	const place = (offHz: number): GeneratorPlace => ({ frequencyHz: bestHz + offHz, ...standardTone, into: 'antenna' });
	const edges = widthRatios.map((ratio) => {
		const levelV = ratio * (sensitivityV ?? Number.POSITIVE_INFINITY);
		if (!(levelV < most)) return null;
		const reaches = (offHz: number) => steady.operatingPoint({ ...place(offHz), levelV }).toneV >= wantedV;
		const low = edgeHz(reaches, -1);
		const high = edgeHz(reaches, 1);
		return low === null || high === null ? null : { low, high };
	});
	const narrow = edges[0] ?? null;
	/** Of the narrowest width, from the best. */
	const middleOffHz = narrow ? (narrow.low + narrow.high) / 2 : null;
	return {
		sensitivityV: marks.map((mark) => mark.sensitivityV),
		dialErrorHz: marks.map((mark) => mark.bestHz - mark.dialHz),
		widthsHz: edges.map((edge) => edge && edge.high - edge.low),
		adjacentDb: [-1, 1].map((side) =>
			middleOffHz === null ? null : overDb(middle.inputV(bestHz + middleOffHz + side * channelHz), sensitivityV),
		),
		imageDb: marks.map((mark) => {
			const atV = mark.inputV(mark.imageHz);
			if (atV === null) return null;
			const atHz = bestNearHz(mark.steady, 'antenna', atV, mark.imageHz, 40e3);
			return overDb(mark.inputV(atHz), mark.sensitivityV);
		}),
		ifDb: overDb(ifInput(lowest), lowest.sensitivityV),
		avcDb: sensitivityV === null ? null : avcDb(valuesAt, middle.dialHz, bestHz),
		stageGainsDb: stageGainsDb(middle.values, bestHz, sensitivityV),
	};
}

/** Volts at the intermediate frequency for the standard output, where the set answers best to it. */
function ifInput(mark: {
	readonly values: SetValues;
	readonly steady: SteadyState;
	readonly inputV: (frequencyHz: number) => number | null;
}): number | null {
	const nearV = mark.inputV(mark.values.ifHz);
	const atHz = bestNearHz(mark.steady, 'antenna', nearV ?? most, mark.values.ifHz, 20e3);
	return mark.inputV(atHz);
}

/** Volume control at which the strong input gives an output; full up where it does not. */
export function volumeFor(outputV: (volume: number) => number, wantedV: number): number {
	if (outputV(1) < wantedV) return 1;
	let low = 0;
	let high = 1;
	for (let halving = 0; halving < 30; halving++) {
		const middle = (low + high) / 2;
		if (outputV(middle) < wantedV) low = middle;
		else high = middle;
	}
	return high;
}

function avcDb(
	valuesAt: (dialHz: number, volume: number) => SetValues,
	dialHz: number,
	frequencyHz: number,
): number | null {
	const place: GeneratorPlace = { frequencyHz, ...standardTone, into: 'antenna' };
	const wantedV = standardOutputV(valuesAt(dialHz, 1).audio.voiceCoilOhm);
	const strong = (volume: number) =>
		new SteadyState(valuesAt(dialHz, volume)).operatingPoint({ ...place, levelV: strongInputV }).toneV;
	const volume = volumeFor(strong, wantedV);
	const steady = new SteadyState(valuesAt(dialHz, volume));
	const fallenV = inputForOutputV(steady, place, strong(volume) / 10 ** (avcFallDb / 20));
	return fallenV === null ? null : decibels(strongInputV / fallenV);
}
