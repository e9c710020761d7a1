import type { PoleFit, SweepConditions } from './pole-fit.ts';
import { levelFunction, resonanceModel } from './response-model.ts';

/** A fitted curve at one frequency, with the standard uncertainty of its shape. */
export interface FittedLevel {
	readonly frequencyHz: number;
	readonly levelDb: number;
	readonly uncertaintyDb: number;
}

/** The curve of fitted resonances, its uncertainty counted from the mean of its upper 10 dB, since the gain is free. */
export function fittedLevels(
	fit: PoleFit,
	conditions: SweepConditions,
	frequenciesHz: readonly number[],
): readonly FittedLevel[] {
	const size = 2 * fit.count;
	const level = levelFunction(resonanceModel(fit.count), conditions.toneHz / conditions.ifHz);
	const found = frequenciesHz.map((frequencyHz) => {
		const out = new Float64Array(size + 1);
		level(fit.parameters, frequencyHz / conditions.ifHz, out);
		return out;
	});
	const topDb = Math.max(...found.map((out) => out[0] as number));
	const high = found.filter((out) => (out[0] as number) > topDb - 10);
	const mean = Float64Array.from(
		{ length: size },
		(_, place) => high.reduce((sum, out) => sum + (out[1 + place] as number), 0) / high.length,
	);
	return found.map((out, index) => {
		let variance = 0;
		for (let row = 0; row < size; row++)
			for (let column = 0; column < size; column++)
				variance +=
					((out[1 + row] as number) - (mean[row] as number)) *
					((out[1 + column] as number) - (mean[column] as number)) *
					(fit.covariance?.[row * size + column] ?? 0);
		return {
			frequencyHz: frequenciesHz[index] as number,
			levelDb: fit.gainDb + (out[0] as number),
			uncertaintyDb: Math.sqrt(Math.max(0, variance)),
		};
	});
}
