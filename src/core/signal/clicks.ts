/** Length of the frames in which impulses are looked for, seconds. */
const frameS = 1e-3;
/** A frame is an impulse when its sharpness is this many times the ordinary one (chosen: noise alone comes to less than twice). */
const standingOut = 4;
/** Impulses nearer than this are one. */
const leastApartS = 8e-3;

/** Middle value. */
function median(values: Float64Array): number {
	const sorted = Float64Array.from(values).sort();
	return sorted[sorted.length >> 1] ?? 0;
}

/** Sharpness of each frame: rms of the second difference, which leaves low tones and hum out. */
function sharpness(samples: ArrayLike<number>, size: number): Float64Array {
	return Float64Array.from({ length: Math.floor(samples.length / size) }, (_, at) => {
		let sum = 0;
		for (let k = Math.max(2, at * size); k < (at + 1) * size; k++) {
			const bend = (samples[k] as number) - 2 * (samples[k - 1] as number) + (samples[k - 2] as number);
			sum += bend * bend;
		}
		return Math.sqrt(sum / size);
	});
}

/** Moments of impulses that stand out of the rest of the sound, seconds from its beginning. */
export function clickTimesS(samples: ArrayLike<number>, sampleRateHz: number): readonly number[] {
	const frame = Math.round(frameS * sampleRateHz);
	const sharp = sharpness(samples, frame);
	const least = standingOut * Math.max(median(sharp), Number.MIN_VALUE);
	const times: number[] = [];
	for (const [at, value] of sharp.entries()) {
		const atS = (at * frame) / sampleRateHz;
		if (value > least && atS - (times.at(-1) ?? Number.NEGATIVE_INFINITY) >= leastApartS) times.push(atS);
	}
	return times;
}
