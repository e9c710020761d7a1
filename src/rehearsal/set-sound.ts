import { SetStream } from '#core/receiver/set-stream.ts';
import { standardTone } from '#core/receiver/signal.ts';
import type { SetValues } from '#core/receiver/values.ts';
import { outputSound } from '#core/signal/output-sound.ts';

/** Of the tone 0.06 dB is lost between samples (held by a test of `SetStream`). */
const sampleRateHz = 48_000;
/** AVC has come to rest after this. */
const settleS = 0.6;

const rmsV = (samples: Float64Array): number =>
	Math.sqrt(samples.reduce((sum, sample) => sum + sample * sample, 0) / samples.length);

/** What the voice coil gives, settled. */
function sound(
	values: SetValues,
	signal: { readonly frequencyHz: number; readonly levelV: number; readonly depth: number },
	lastsS: number,
	seed: number,
): Float64Array {
	const stream = new SetStream(values, [{ ...standardTone, ...signal, into: 'antenna' }], sampleRateHz, seed);
	stream.fill(new Float64Array(settleS * sampleRateHz));
	const samples = new Float64Array(lastsS * sampleRateHz);
	stream.fill(samples);
	return samples;
}

/** Noise at the voice coil under a carrier without tone, volts rms. */
export function carrierNoiseV(values: SetValues, frequencyHz: number, levelV: number, seed: number): number {
	return rmsV(sound(values, { frequencyHz, levelV, depth: 0 }, 0.5, seed));
}

/** The standard tone at the voice coil: volts rms with everything, and distortion as a share of the tone. */
export function heardTone(
	values: SetValues,
	frequencyHz: number,
	levelV: number,
	seed: number,
): { readonly outputV: number; readonly distortionShare: number } {
	const samples = sound(values, { frequencyHz, levelV, depth: standardTone.depth }, 0.25, seed);
	const { whole, distortionShare } = outputSound(samples, sampleRateHz, standardTone.toneHz);
	return { outputV: whole, distortionShare: distortionShare ?? 0 };
}
