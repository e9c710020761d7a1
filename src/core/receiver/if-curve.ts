import { size } from '#core/numeric/complex.ts';
import { type BenchSet, valuesAt } from './bench-set.ts';
import { node } from './if-strip.ts';
import { StripResponse } from './strip-system.ts';
import { workingTubes } from './weak-gain.ts';

/** The IF curve for a weak signal, from the converter's grid to the diode: decibels of its peak. */
export interface IfCurve {
	readonly peakHz: number;
	/** Level at a frequency, decibels below the peak, 0 or negative. */
	levelDb(frequencyHz: number): number;
	/** Width 6 dB below the peak, hertz; from the outermost crossings where there are several. `NaN` where they lie more than 60 kc off the IF. */
	readonly width6Hz: number;
}

/** The IF curve of a set as it stands, weak signal. */
export function ifCurve(set: BenchSet): IfCurve {
	// The strip does not see the gang: any place will do.
	const values = valuesAt(set, 0);
	const { ifTubeS, diodeS } = workingTubes(values);
	const response = new StripResponse(values, ifTubeS, diodeS, node.converterPlate, node.diode);
	const decibels = (frequencyHz: number): number => {
		return 20 * Math.log10(size(response.at(frequencyHz)));
	};
	const stepHz = 50;
	const lowest = set.design.ifHz - 60e3;
	let peakHz = lowest;
	let peakDb = Number.NEGATIVE_INFINITY;
	const levels: number[] = [];
	for (let k = 0; k <= 120e3 / stepHz; k++) {
		const level = decibels(lowest + k * stepHz);
		levels.push(level);
		if (level > peakDb) {
			peakDb = level;
			peakHz = lowest + k * stepHz;
		}
	}
	const above = levels.map((level) => level >= peakDb - 6.0206);
	const crossing = (at: number, next: number): number => {
		const inside = levels[at] as number;
		const outside = levels[next] as number;
		return lowest + stepHz * (at + ((next - at) * (inside - peakDb + 6.0206)) / (inside - outside));
	};
	const first = above.indexOf(true);
	const last = above.lastIndexOf(true);
	const width6Hz =
		first > 0 && last < levels.length - 1 ? crossing(last, last + 1) - crossing(first, first - 1) : Number.NaN;
	return { peakHz, width6Hz, levelDb: (frequencyHz) => decibels(frequencyHz) - peakDb };
}
