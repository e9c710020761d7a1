/** Length of the frames whose means are followed, seconds: slow against a beat, long against any tone. */
const frameS = 0.02;
const slowestS = 1.5;
const fastestS = 0.08;
/** Likeness of the sound to itself one beat later, from 0 to 1, above which it beats (chosen). */
const leastLikeness = 0.5;

/** Strength of each frame over the mean strength, less 1. */
function envelope(samples: ArrayLike<number>, size: number): Float64Array {
	const rms = Float64Array.from({ length: Math.floor(samples.length / size) }, (_, at) => {
		let sum = 0;
		for (let k = at * size; k < (at + 1) * size; k++) sum += (samples[k] as number) ** 2;
		return Math.sqrt(sum / size);
	});
	const mean = rms.reduce((total, one) => total + one, 0) / Math.max(1, rms.length);
	return rms.map((one) => (mean > 0 ? one / mean - 1 : 0));
}

/** A slow regular beat in the strength of a sound. */
export interface Beat {
	readonly perS: number;
	/** Rms of the strength's swing, as share of its mean. */
	readonly swingShare: number;
}

/** The beat of a sound between 0.7 and 12 a second that swings by a third or more; `null` when there is none. */
export function beatOf(samples: ArrayLike<number>, sampleRateHz: number): Beat | null {
	const swing = envelope(samples, Math.round(frameS * sampleRateHz));
	const whole = swing.reduce((sum, one) => sum + one * one, 0);
	const swingShare = Math.sqrt(whole / Math.max(1, swing.length));
	if (swingShare < 1 / 3) return null;
	const likeness = (count: number): number => {
		let sum = 0;
		for (let k = 0; k + count < swing.length; k++) sum += (swing[k] as number) * (swing[k + count] as number);
		return (sum / whole) * (swing.length / (swing.length - count));
	};
	const lags = Math.min(Math.floor(slowestS / frameS), swing.length >> 1);
	for (let lag = Math.ceil(fastestS / frameS); lag <= lags; lag++) {
		const here = likeness(lag);
		if (here < leastLikeness || here < likeness(lag - 1) || here < likeness(lag + 1)) continue;
		return { perS: 1 / (lag * frameS), swingShare };
	}
	return null;
}
