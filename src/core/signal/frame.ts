import type { Estimate } from '#core/numeric/estimate.ts';
import { amplitude, amplitudeUncertainty, fitSines, type SineAmplitudes } from './sine-fit.ts';

/** Level of a tone over one short frame, full scale being 1. */
export interface ToneFrame {
	/** `held`: a part of the sound was lost on its way, so that the level is not the tone's. */
	readonly kind: 'ok' | 'clipped' | 'no tone' | 'too weak' | 'held';
	/** Rms of the tone in decibels below the rms of a full-scale sine; `null` when there is no tone. */
	readonly levelDbfs: Estimate | null;
	readonly toneHz: Estimate | null;
	/** Tone against noise in 4 kc. */
	readonly snrDb: number;
}

/** A tone below four of its own uncertainties is none (chosen: one false tone in some 3,000 frames of noise). */
const leastSigmas = 4;
/** A level uncertain by more than this is too weak to peak on (chosen: three such frames tell 1 dB). */
const mostUncertaintyDb = 0.6;
const noiseBandHz = 4000;
/** Samples that are exactly nought for so long are none of a sound input: a machine that had no time for them put them there (chosen: a little less than the 128 samples that browsers pass on at a time). */
const lostS = 0.0025;

/**
 * Samples at the converter's stop: true when three in a row stand at the same extreme above 0.98 of full scale.
 * @example isClipped([0, 1, 1, 1, 0]) // => true
 */
export function isClipped(samples: ArrayLike<number>): boolean {
	let run = 1;
	for (let index = 1; index < samples.length; index++) {
		const here = samples[index] as number;
		run = here === samples[index - 1] && Math.abs(here) >= 0.98 ? run + 1 : 1;
		if (run >= 3) return true;
	}
	return false;
}

/** Whether a stretch of the samples is not there. */
function hasGap(samples: ArrayLike<number>, sampleRateHz: number): boolean {
	const most = lostS * sampleRateHz;
	let run = 0;
	for (let index = 0; index < samples.length; index++) {
		run = samples[index] === 0 ? run + 1 : 0;
		if (run >= most) return true;
	}
	return false;
}

/** Offset of the tone from the fitted frequency, in hertz, from the turn of phase between the two halves of the frame. */
function offsetHz(samples: ArrayLike<number>, sampleRateHz: number, frequencyHz: number): number {
	const half = samples.length >> 1;
	const phaseRad = (from: number): number => {
		const stepRad = (2 * Math.PI * frequencyHz) / sampleRateHz;
		let cosine = 0;
		let sine = 0;
		for (let index = from; index < from + half; index++) {
			cosine += (samples[index] as number) * Math.cos(stepRad * index);
			sine += (samples[index] as number) * Math.sin(stepRad * index);
		}
		return Math.atan2(-sine, cosine);
	};
	const turnRad = phaseRad(half) - phaseRad(0);
	return ((turnRad - 2 * Math.PI * Math.round(turnRad / (2 * Math.PI))) * sampleRateHz) / (2 * Math.PI * half);
}

/**
 * Level of the tone near `toneHz` in one frame, a tenth of a second as a rule; the tone may be off by half a cycle over the frame (5 c in a tenth of a second).
 * @param samples full scale is 1
 */
export function toneFrame(samples: ArrayLike<number>, sampleRateHz: number, toneHz: number): ToneFrame {
	const clipped = isClipped(samples);
	const shiftHz = offsetHz(samples, sampleRateHz, toneHz);
	const spacingHz = sampleRateHz / samples.length;
	const frequencyHz = toneHz + Math.max(-spacingHz, Math.min(spacingHz, shiftHz));
	const fit = fitSines(samples, sampleRateHz, [frequencyHz]);
	const strength = amplitude(fit.sines[0] as SineAmplitudes);
	const sigma = amplitudeUncertainty(fit.residual, sampleRateHz, frequencyHz);
	// Noise in 4 kc from the density beside the tone: sigma^2 = density * rate / n, density in V^2 per hertz of the one-sided band.
	const noisePower = (sigma * sigma * samples.length * noiseBandHz) / sampleRateHz;
	const snrDb = 10 * Math.log10((strength * strength) / 2 / noisePower);
	if (!(strength > leastSigmas * sigma) || strength === 0)
		return { kind: 'no tone', levelDbfs: null, toneHz: null, snrDb };
	const uncertaintyDb = (20 / Math.LN10) * (sigma / strength);
	const isLost = hasGap(samples, sampleRateHz);
	return {
		kind: isLost ? 'held' : clipped ? 'clipped' : uncertaintyDb > mostUncertaintyDb ? 'too weak' : 'ok',
		levelDbfs: { value: 20 * Math.log10(strength), uncertainty: uncertaintyDb },
		// Two phases over half the frame each, half of it apart: sd = 2 / (pi T) * sigma_A / A, the bound of [rife-boorstyn-1974] having sqrt(3) for 2.
		toneHz: { value: frequencyHz, uncertainty: ((2 * sigma) / strength) * (spacingHz / Math.PI) },
		snrDb,
	};
}
