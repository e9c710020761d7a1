import FFT from 'fft.js';

/** Power spectrum of samples: `powers[k]` belongs to `k * spacingHz`; only ratios within one spectrum mean anything. */
export interface Spectrum {
	readonly powers: Float64Array;
	readonly spacingHz: number;
}

/**
 * Hann-windowed power spectrum, summed over half-overlapping pieces of the largest power of two up to 65,536 samples.
 * @param samples at least two
 */
export function spectrum(samples: ArrayLike<number>, sampleRateHz: number): Spectrum {
	const size = Math.min(65_536, 2 ** Math.floor(Math.log2(samples.length)));
	const fft = new FFT(size);
	const output = fft.createComplexArray();
	const piece = new Float64Array(size);
	const powers = new Float64Array(size / 2);
	for (let start = 0; start + size <= samples.length; start += size / 2) {
		for (let index = 0; index < size; index++) {
			const window = 0.5 - 0.5 * Math.cos((2 * Math.PI * index) / size);
			piece[index] = window * (samples[start + index] as number);
		}
		fft.realTransform(output, piece);
		for (let bin = 0; bin < powers.length; bin++) {
			const real = output[2 * bin] as number;
			const imaginary = output[2 * bin + 1] as number;
			powers[bin] = (powers[bin] as number) + real * real + imaginary * imaginary;
		}
	}
	return { powers, spacingHz: sampleRateHz / size };
}

/** Frequency of the strongest line between two frequencies, in hertz, interpolated between the spectrum's lines; `null` for silence. */
export function strongestHz({ powers, spacingHz }: Spectrum, lowHz: number, highHz: number): number | null {
	const first = Math.max(1, Math.ceil(lowHz / spacingHz));
	const last = Math.min(powers.length - 2, Math.floor(highHz / spacingHz));
	let best = -1;
	for (let bin = first; bin <= last; bin++)
		if (best < 0 || (powers[bin] as number) > (powers[best] as number)) best = bin;
	if (best < 0 || !((powers[best] as number) > 0)) return null;
	const [below, at, above] = [best - 1, best, best + 1].map((bin) => Math.log((powers[bin] as number) + 1e-300)) as [
		number,
		number,
		number,
	];
	const curve = below - 2 * at + above;
	const shift = curve < 0 ? Math.max(-0.5, Math.min(0.5, (below - above) / (2 * curve))) : 0;
	return (best + shift) * spacingHz;
}
