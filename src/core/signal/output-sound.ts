import { measureTone } from './tone.ts';

/** What a meter and a distortion meter show of a set's output. */
export interface OutputSound {
	/** Everything that is there, rms, in the samples' unit. */
	readonly whole: number;
	/** Distortion as a share of the tone; `null` without a tone. */
	readonly distortionShare: number | null;
}

/**
 * What a meter of true volts and a distortion meter show of a set's output.
 * @param samples half a second or more
 * @param toneHz the generator's modulation, within 5 per cent
 */
export function outputSound(samples: ArrayLike<number>, sampleRateHz: number, toneHz: number): OutputSound {
	const all = Float64Array.from(samples);
	const mean = all.reduce((sum, one) => sum + one, 0) / all.length;
	const whole = Math.sqrt(all.reduce((sum, one) => sum + (one - mean) ** 2, 0) / all.length);
	const most = 2 * all.reduce((largest, one) => Math.max(largest, Math.abs(one)), Number.MIN_VALUE);
	const { thdDb } = measureTone(
		all.map((one) => one / most),
		sampleRateHz,
		toneHz,
	);
	return { whole, distortionShare: thdDb && 10 ** (thdDb.value / 20) };
}
