import type { Estimate } from '#core/numeric/estimate.ts';
import { isClipped } from './frame.ts';
import { amplitude, amplitudeUncertainty, fitSines, refinedFrequencyHz, type SineAmplitudes } from './sine-fit.ts';
import { spectrum, strongestHz } from './spectrum.ts';

/** Everything measured on a recording of a tone; full scale is 1. Figures are `null` when there is no tone, or nothing to be had them from. */
export interface ToneMeasurement {
	readonly verdict: 'ok' | 'clipped' | 'no tone' | 'too weak';
	readonly toneHz: Estimate | null;
	/** Rms of the fundamental below the rms of a full-scale sine. */
	readonly levelDbfs: Estimate | null;
	/** (S+N+D)/(N+D), from 20 c to half the sampling rate, mean removed. */
	readonly sinadDb: Estimate | null;
	/** Harmonics 2 to 9 below half the rate, rms sum, relative to the fundamental; without an uncertainty the most that noise would hide. `null` where none lies below half the rate. */
	readonly thdDb: Estimate | null;
	/** (top - |bottom|) / (top + |bottom|) of the averaged cycle, about its mean. */
	readonly asymmetry: Estimate | null;
	/** Mains lines of 50 or 60 c and multiples to 600 c, rms sum, relative to the fundamental. */
	readonly humDbc: Estimate | null;
	readonly clipped: boolean;
}

/** The tones that the meter looks for. */
const toneRange = { lowHz: 200, highHz: 3000 } as const;
const leastSigmas = 5;
const mostUncertaintyDb = 0.5;
const highestHarmonic = 9;
const highestHumHz = 600;
const lowestSoundHz = 20;
const dbPerNeper = 20 / Math.LN10;

/** Mean square that lies below 20 c: the lines of the samples' own Fourier series up to there. */
function powerBelowSound(samples: Float64Array, sampleRateHz: number): number {
	const spacingHz = sampleRateHz / samples.length;
	let power = 0;
	for (let line = 1; line * spacingHz < lowestSoundHz; line++) {
		const doubled = 2 * Math.cos((2 * Math.PI * line) / samples.length);
		let last = 0;
		let before = 0;
		for (const sample of samples) {
			const next = sample + doubled * last - before;
			before = last;
			last = next;
		}
		power += (2 * (last * last + before * before - doubled * last * before)) / samples.length ** 2;
	}
	return power;
}

const meanSquare = (samples: Float64Array): number =>
	samples.reduce((sum, value) => sum + value * value, 0) / samples.length;

/** Rms sum of lines with its uncertainty, in decibels relative to the fundamental; noise that the fit took for lines is taken off. */
function relativeDb(lines: readonly SineAmplitudes[], sigmas: readonly number[], fundamental: number): Estimate {
	const squares = lines.reduce(
		(sum, line, index) => sum + amplitude(line) ** 2 - 2 * (sigmas[index] as number) ** 2,
		0,
	);
	const spread = Math.sqrt(
		lines.reduce((sum, line, index) => sum + (2 * amplitude(line) * (sigmas[index] as number)) ** 2, 0),
	);
	if (!(squares > spread)) {
		// Not told from nothing: the largest value that the noise would hide, with no uncertainty to give.
		const hidden = Math.sqrt(2 * sigmas.reduce((sum, sigma) => sum + sigma * sigma, 0) + Number.MIN_VALUE);
		return { value: 20 * Math.log10(hidden / fundamental), uncertainty: null };
	}
	return {
		value: 10 * Math.log10(squares) - 20 * Math.log10(fundamental),
		uncertainty: (dbPerNeper * spread) / (2 * squares),
	};
}

function asymmetryOf(lines: readonly SineAmplitudes[], sigma: number): Estimate {
	const first = lines[0] as SineAmplitudes;
	let top = Number.NEGATIVE_INFINITY;
	let bottom = Number.POSITIVE_INFINITY;
	for (let step = 0; step < 720; step++) {
		const phaseRad = (2 * Math.PI * step) / 720;
		let value = 0;
		for (const line of lines) {
			const order = Math.round(line.frequencyHz / first.frequencyHz);
			value += line.cosine * Math.cos(order * phaseRad) + line.sine * Math.sin(order * phaseRad);
		}
		top = Math.max(top, value);
		bottom = Math.min(bottom, value);
	}
	const span = top - bottom;
	// Even harmonics move both extremes the same way: each adds its own noise once.
	return { value: (top + bottom) / span, uncertainty: (2 * sigma * Math.sqrt(lines.length)) / span };
}

const nothing = (clipped: boolean): ToneMeasurement => ({
	verdict: 'no tone',
	toneHz: null,
	levelDbfs: null,
	sinadDb: null,
	thdDb: null,
	asymmetry: null,
	humDbc: null,
	clipped,
});

function humLines(toneHz: number, mainsHz: number, spacingHz: number, sampleRateHz: number): number[] {
	const lines: number[] = [];
	for (let lineHz = mainsHz; lineHz <= highestHumHz && lineHz < sampleRateHz / 2; lineHz += mainsHz) {
		const order = Math.max(1, Math.round(lineHz / toneHz));
		if (Math.abs(lineHz - order * toneHz) > 1.5 * spacingHz && lineHz > spacingHz) lines.push(lineHz);
	}
	return lines;
}

/**
 * Level, frequency, distortion, hum and symmetry of the tone in the samples; the strongest between 200 and 3,000 c, or the one within 5 % of `expectedHz`.
 * Each figure is defined beside its name in ToneMeasurement.
 * @param samples at least 0.05 s; full scale is 1
 */
export function measureTone(
	samples: ArrayLike<number>,
	sampleRateHz: number,
	expectedHz: number | null,
): ToneMeasurement {
	const clipped = isClipped(samples);
	const [lowHz, highHz] =
		expectedHz === null ? [toneRange.lowHz, toneRange.highHz] : [expectedHz * 0.95, expectedHz * 1.05];
	if (samples.length < 0.05 * sampleRateHz) return nothing(clipped);
	const guessHz = strongestHz(spectrum(samples, sampleRateHz), lowHz, highHz);
	if (guessHz === null) return nothing(clipped);
	const toneHz = refinedFrequencyHz(samples, sampleRateHz, guessHz);
	if (toneHz < lowHz || toneHz > highHz) return nothing(clipped);
	const orders = Array.from({ length: highestHarmonic }, (_, index) => index + 1);
	const harmonicsHz = orders.map((order) => order * toneHz).filter((lineHz) => lineHz < sampleRateHz / 2);
	const spacingHz = sampleRateHz / samples.length;
	const fits = [50, 60].map((mainsHz) => {
		const linesHz = humLines(toneHz, mainsHz, spacingHz, sampleRateHz);
		return { linesHz, fit: fitSines(samples, sampleRateHz, [...harmonicsHz, ...linesHz]) };
	});
	const [fifty, sixty] = fits as [(typeof fits)[0], (typeof fits)[0]];
	const { fit } = meanSquare(fifty.fit.residual) <= meanSquare(sixty.fit.residual) ? fifty : sixty;
	const sigmas = fit.sines.map(({ frequencyHz }) => amplitudeUncertainty(fit.residual, sampleRateHz, frequencyHz));
	const fundamental = fit.sines[0] as SineAmplitudes;
	const strength = amplitude(fundamental);
	const sigma = sigmas[0] as number;
	if (!(strength > leastSigmas * sigma) || strength === 0) return nothing(clipped);

	const alone = fitSines(samples, sampleRateHz, [toneHz]);
	const centred = Float64Array.from(samples, (sample) => sample - alone.mean);
	const rest = Math.max(meanSquare(alone.residual) - powerBelowSound(alone.residual, sampleRateHz), Number.MIN_VALUE);
	const whole = meanSquare(centred) - powerBelowSound(centred, sampleRateHz);
	const levelUncertaintyDb = dbPerNeper * (sigma / strength);
	// The mean square of noise over n samples is known to sqrt(2 / n).
	const restUncertaintyDb = 10 * Math.LOG10E * Math.sqrt(2 / samples.length);
	const harmonics = fit.sines.slice(0, harmonicsHz.length);
	return {
		verdict: clipped ? 'clipped' : levelUncertaintyDb > mostUncertaintyDb ? 'too weak' : 'ok',
		toneHz: { value: toneHz, uncertainty: ((Math.sqrt(3) * sigma) / strength) * (spacingHz / Math.PI) },
		levelDbfs: { value: 20 * Math.log10(strength), uncertainty: levelUncertaintyDb },
		sinadDb: {
			value: 10 * Math.log10(Math.max(1, whole / rest)),
			uncertainty: Math.hypot(levelUncertaintyDb, restUncertaintyDb),
		},
		thdDb: harmonics.length < 2 ? null : relativeDb(harmonics.slice(1), sigmas.slice(1, harmonics.length), strength),
		asymmetry: asymmetryOf(harmonics, sigma),
		humDbc: relativeDb(fit.sines.slice(harmonics.length), sigmas.slice(harmonics.length), strength),
		clipped,
	};
}
