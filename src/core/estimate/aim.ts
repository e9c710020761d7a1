import { leastSquares } from '#core/numeric/least-squares.ts';
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

/**
 * The strip with its four tunings moved to an aim, and what that gives.
 * @param parameters eleven parameters of the strip as it stands
 */
export function aimedStrip(parameters: Float64Array, aim: Aim, ifHz: number, toneHz: number): AimedStrip {
	const onIf = Float64Array.from(parameters);
	onIf.fill(0, stripPlaces.tuning, stripPlaces.tuning + 4);
	if (aim.kind === 'on IF') return measured(aim, onIf, ifHz, toneHz);
	const level = levels(toneHz, ifHz);
	const half = aim.kind === 'width' ? aim.width6Hz / 2 : null;
	const count = 4 + pairsHz.length + (half === null ? 0 : 2);
	const model = (tunings: Float64Array, residuals: Float64Array, slopes: Float64Array): void => {
		const strip = Float64Array.from(onIf);
		strip.set(tunings, stripPlaces.tuning);
		slopes.fill(0);
		const put = (row: number, one: Float64Array, other: Float64Array, wantedDb: number): void => {
			residuals[row] = ((one[0] as number) - (other[0] as number) - wantedDb) / worthDb;
			for (let place = 0; place < 4; place++)
				slopes[row * 4 + place] = ((one[1 + place] as number) - (other[1 + place] as number)) / worthDb;
		};
		for (let place = 0; place < 4; place++) {
			residuals[place] = ((tunings[place] as number) * ifHz) / worthHz;
			slopes[place * 4 + place] = ifHz / worthHz;
		}
		for (const [row, offsetHz] of pairsHz.entries())
			put(4 + row, level(strip, ifHz + offsetHz), level(strip, ifHz - offsetHz), 0);
		if (half === null) return;
		const middle = level(strip, ifHz);
		put(4 + pairsHz.length, level(strip, ifHz + half), middle, -6);
		put(5 + pairsHz.length, level(strip, ifHz - half), middle, -6);
	};
	// A wanted width needs the windings of a can apart; without a push they would stay together.
	const push = half === null ? 0 : 1000 / ifHz;
	const { parameters: tunings } = leastSquares(model, Float64Array.of(push, -push, -push, push), count);
	const aimed = Float64Array.from(onIf);
	aimed.set(tunings, stripPlaces.tuning);
	return measured(aim, aimed, ifHz, toneHz);
}
