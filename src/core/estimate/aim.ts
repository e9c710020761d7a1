import { leastSquares } from '#core/numeric/least-squares.ts';
import type { SweepConditions } from './pole-fit.ts';
import { levelFunction } from './response-model.ts';
import { stripModel, stripPlaces } from './strip-model.ts';

/** What the restorer wants of the curve: every circuit on the IF, a symmetrical curve, or a width at 6 dB. */
export type Aim =
	| { readonly kind: 'on IF' }
	| { readonly kind: 'symmetrical' }
	| { readonly kind: 'width'; readonly width6Hz: number };

/** How a strip stands when an aim is reached. */
export interface AimedStrip {
	readonly aim: Aim;
	/** Parameters of the strip, its four tunings changed. */
	readonly parameters: Float64Array;
	/** Level at the IF. */
	readonly atIfDb: number;
	readonly width6Hz: number;
	readonly asymmetryDb5kHz: number;
}

/** Offsets either side of the IF at which a curve is made symmetrical, in hertz. */
const pairsHz = [1500, 3000, 5000, 8000, 12000] as const;
/** Decibels of asymmetry, or of a wanted width, and hertz of detuning that weigh the same (chosen): a curve within a tenth of a decibel is worth a kilocycle. */
const worthDb = 0.1;
const worthHz = 1000;
/** Aims of nearly the same worth: a kilocycle of one circuit, or a tenth of a decibel (chosen). */
const sameWorth = 1;

/** Ways that the windings of both cans may lie apart, and how far apart a search begins, in hertz (chosen). */
const pushes = [
	[1, -1, -1, 1],
	[1, -1, 1, -1],
	[-1, 1, 1, -1],
	[-1, 1, -1, 1],
] as const;
const pushHz = 1000;

/** Level of a strip at a frequency, and by each of its tunings. */
function levels(toneHz: number, ifHz: number): (parameters: ArrayLike<number>, frequencyHz: number) => Float64Array {
	const level = levelFunction(stripModel(), toneHz / ifHz);
	return (parameters, frequencyHz) => {
		const out = new Float64Array(stripPlaces.size + 1);
		level(parameters, frequencyHz / ifHz, out);
		return out;
	};
}

function measured(aim: Aim, parameters: Float64Array, ifHz: number, toneHz: number): AimedStrip {
	const level = levels(toneHz, ifHz);
	const at = (offsetHz: number): number => level(parameters, ifHz + offsetHz)[0] as number;
	let peakDb = Number.NEGATIVE_INFINITY;
	for (let offsetHz = -20e3; offsetHz <= 20e3; offsetHz += 100) peakDb = Math.max(peakDb, at(offsetHz));
	const edge = (side: 1 | -1): number => {
		let outside = 40e3;
		while (outside > 0 && at(side * outside) < peakDb - 6) outside -= 100;
		return outside + 50;
	};
	return {
		aim,
		parameters,
		atIfDb: at(0),
		width6Hz: edge(1) + edge(-1),
		asymmetryDb5kHz: at(5e3) - at(-5e3),
	};
}

/** Pairs of offsets from the IF, and how far the curve is to stand higher at the first of them. */
function wanted(aim: Aim): readonly {
	readonly oneHz: number;
	readonly otherHz: number;
	readonly overDb: number;
}[] {
	const alike = pairsHz.map((offsetHz) => ({
		oneHz: offsetHz,
		otherHz: -offsetHz,
		overDb: 0,
	}));
	if (aim.kind !== 'width') return alike;
	const halfHz = aim.width6Hz / 2;
	return [...alike, ...[halfHz, -halfHz].map((oneHz) => ({ oneHz, otherHz: 0, overDb: -6 }))];
}

/** A strip whose free circuits were moved, and what it lacks of its aim: squares of tenths of a decibel and of kilocycles. */
interface Moved {
	readonly parameters: Float64Array;
	readonly sum: number;
}

/** The strip with its free circuits where its curve comes nearest to an aim and they themselves to some tunings. */
function moved(
	parameters: Float64Array,
	aim: Aim,
	{ ifHz, toneHz }: Pick<SweepConditions, 'ifHz' | 'toneHz'>,
	free: readonly number[],
	near: ArrayLike<number>,
	start: ArrayLike<number>,
): Moved {
	const level = levels(toneHz, ifHz);
	const rows = wanted(aim);
	const size = free.length;
	const strip = Float64Array.from(parameters);
	const place = (tunings: Float64Array): void => {
		for (const [index, circuit] of free.entries()) strip[circuit] = tunings[index] as number;
	};
	const model = (tunings: Float64Array, residuals: Float64Array, slopes: Float64Array): void => {
		place(tunings);
		slopes.fill(0);
		for (const [index, circuit] of free.entries()) {
			residuals[index] = (((tunings[index] as number) - (near[circuit] as number)) * ifHz) / worthHz;
			slopes[index * size + index] = ifHz / worthHz;
		}
		for (const [row, { oneHz, otherHz, overDb }] of rows.entries()) {
			const one = level(strip, ifHz + oneHz);
			const other = level(strip, ifHz + otherHz);
			residuals[size + row] = ((one[0] as number) - (other[0] as number) - overDb) / worthDb;
			for (const [index, circuit] of free.entries())
				slopes[(size + row) * size + index] = ((one[1 + circuit] as number) - (other[1 + circuit] as number)) / worthDb;
		}
	};
	const from = Float64Array.from(free, (circuit) => start[circuit] as number);
	const fit = leastSquares(model, from, size + rows.length);
	place(fit.parameters);
	return { parameters: strip, sum: fit.sum };
}

const allCircuits = [0, 1, 2, 3] as const;

/**
 * The strip with its four tunings moved to an aim, and what that gives.
 * @param parameters eleven parameters of the strip as it stands
 */
export function aimedStrip(parameters: Float64Array, aim: Aim, ifHz: number, toneHz: number): AimedStrip {
	const onIf = Float64Array.from(parameters);
	onIf.fill(0, stripPlaces.tuning, stripPlaces.tuning + 4);
	if (aim.kind === 'on IF') return measured(aim, onIf, ifHz, toneHz);
	// Without a push the windings of a can would stay together, where a curve is often no better for either way apart.
	const starts = [parameters, ...pushes.map((signs) => signs.map((sign) => (sign * pushHz) / ifHz))];
	const found = starts.map((start) => moved(onIf, aim, { ifHz, toneHz }, allCircuits, onIf, start));
	const least = Math.min(...found.map(({ sum }) => sum));
	// Several ways apart have nearly the same curve: the one that turns least is taken, so that a way once begun is kept to.
	const turned = ({ parameters: aimed }: Moved): number =>
		allCircuits.reduce<number>(
			(sum, circuit) => sum + ((aimed[circuit] as number) - (parameters[circuit] as number)) ** 2,
			0,
		);
	const nearest = found
		.filter(({ sum }) => sum < least + sameWorth)
		.reduce((best, one) => (turned(one) < turned(best) ? one : best));
	return measured(aim, nearest.parameters, ifHz, toneHz);
}

/**
 * Parameters of the strip with its free circuits where they make up for the others, which stay as they are: near the aim's own tunings, the curve as near to the aim as it can be.
 * @param parameters eleven parameters of the strip as it stands
 * @param free circuits, 0 to 3
 */
export function madeUp(
	parameters: Float64Array,
	{ aim, parameters: aimed }: AimedStrip,
	free: readonly number[],
	ifHz: number,
	toneHz: number,
): Float64Array {
	if (aim.kind === 'on IF' || free.length === 0) return aimed;
	return moved(parameters, aim, { ifHz, toneHz }, free, aimed, aimed).parameters;
}
