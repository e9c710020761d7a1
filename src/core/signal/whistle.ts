import type { Estimate } from '#core/numeric/estimate.ts';
import { amplitude, amplitudeUncertainty, fitSines, refinedFrequencyHz, type SineAmplitudes } from './sine-fit.ts';
import { type Spectrum, spectrum, strongestHz } from './spectrum.ts';

/** A steady whistle: the beat of two carriers. */
export interface Whistle {
	/** Its pitch. */
	readonly beatHz: Estimate;
	/** Rms below the rms of a full-scale sine; in proportion to the weaker carrier while that is 20 dB or more below the other. */
	readonly levelDbfs: Estimate;
}

/** Whistles that an ear and a small set's sound can be trusted with. */
const lowestHz = 200;
const highestHz = 3000;
/** Both halves belong to one whistle when they differ by less (chosen: a generator that is just warming up drifts by some cycles a second). */
const steadyHz = 12;
const steadyTimes = 2;
const leastSigmas = 5;
const dbPerNeper = 20 / Math.LN10;

const parts = 4;

/** What every quarter of the samples holds at each frequency: a whistle lasts, a syllable does not. */
function lasting(samples: Float64Array, sampleRateHz: number): Spectrum {
	const size = Math.floor(samples.length / parts);
	const quarters = Array.from({ length: parts }, (_, part) =>
		spectrum(samples.subarray(part * size, (part + 1) * size), sampleRateHz),
	);
	const [first, ...rest] = quarters as [Spectrum, ...Spectrum[]];
	const powers = first.powers.map((power, line) =>
		rest.reduce((least, other) => Math.min(least, other.powers[line] as number), power),
	);
	return { powers, spacingHz: first.spacingHz };
}

/** The line near a frequency in one half, with its uncertainty in the samples' unit. */
function lineIn(samples: Float64Array, sampleRateHz: number, nearHz: number) {
	const guessHz = strongestHz(spectrum(samples, sampleRateHz), nearHz - steadyHz, nearHz + steadyHz);
	const beatHz = refinedFrequencyHz(samples, sampleRateHz, guessHz ?? nearHz);
	const { sines, residual } = fitSines(samples, sampleRateHz, [beatHz]);
	const strength = amplitude(sines[0] as SineAmplitudes);
	return { beatHz, strength, sigma: amplitudeUncertainty(residual, sampleRateHz, beatHz) };
}

/**
 * The strongest whistle from 200 to 3,000 c that both halves of the samples hold alike, a programme's syllables aside; `null` when there is none.
 * @param samples two seconds or more: the longer, the better it stands out of a programme
 */
export function steadyWhistle(samples: ArrayLike<number>, sampleRateHz: number): Whistle | null {
	const all = Float64Array.from(samples);
	const guessHz = strongestHz(lasting(all, sampleRateHz), lowestHz, highestHz);
	if (guessHz === null) return null;
	const half = all.length >> 1;
	const first = lineIn(all.subarray(0, half), sampleRateHz, guessHz);
	const last = lineIn(all.subarray(half), sampleRateHz, guessHz);
	const driftHz = Math.abs(first.beatHz - last.beatHz);
	const times = first.strength / last.strength;
	const isOne = driftHz < steadyHz && times < steadyTimes && times > 1 / steadyTimes;
	if (!isOne || Math.min(first.strength / first.sigma, last.strength / last.sigma) < leastSigmas) return null;
	const strength = (first.strength + last.strength) / 2;
	const sigma = Math.hypot(first.sigma, last.sigma, first.strength - last.strength) / 2;
	// The bound of [rife-boorstyn-1974] for each half.
	const halfHz = (Math.sqrt(3) * sigma * sampleRateHz) / (Math.PI * strength * half);
	return {
		beatHz: { value: (first.beatHz + last.beatHz) / 2, uncertainty: Math.hypot(halfHz, driftHz / 2) },
		levelDbfs: { value: 20 * Math.log10(strength), uncertainty: (dbPerNeper * sigma) / strength },
	};
}
