import { symmetricSolve } from '#core/numeric/symmetric-solve.ts';

/** Cosine and sine amplitudes of one frequency, about the middle of the samples, in the samples' own unit. */
export interface SineAmplitudes {
	readonly frequencyHz: number;
	readonly cosine: number;
	readonly sine: number;
}

/** Least-squares fit of a mean and sines at known frequencies. */
export interface SineFit {
	readonly mean: number;
	readonly sines: readonly SineAmplitudes[];
	/** Samples less mean and sines. */
	readonly residual: Float64Array;
}

/** Amplitude of a fitted sine. */
export function amplitude({ cosine, sine }: SineAmplitudes): number {
	return Math.hypot(cosine, sine);
}

/** Writes cosine and sine of one frequency into two columns, by rotation, restarted each 512 samples against rounding. */
function fillColumns(cosines: Float64Array, sines: Float64Array, stepRad: number): void {
	const middle = (cosines.length - 1) / 2;
	const turnCosine = Math.cos(stepRad);
	const turnSine = Math.sin(stepRad);
	for (let start = 0; start < cosines.length; start += 512) {
		let cosine = Math.cos(stepRad * (start - middle));
		let sine = Math.sin(stepRad * (start - middle));
		const end = Math.min(start + 512, cosines.length);
		for (let index = start; index < end; index++) {
			cosines[index] = cosine;
			sines[index] = sine;
			const next = cosine * turnCosine - sine * turnSine;
			sine = sine * turnCosine + cosine * turnSine;
			cosine = next;
		}
	}
}

/**
 * Mean and sines at known frequencies that leave the least squares: the three-parameter fit of [ieee-1057] when one frequency is given.
 * @param samples longer than twice the frequencies and one
 * @param frequenciesHz distinct, above 0 and below half the rate
 */
export function fitSines(samples: ArrayLike<number>, sampleRateHz: number, frequenciesHz: readonly number[]): SineFit {
	const count = samples.length;
	const size = 2 * frequenciesHz.length + 1;
	const columns = Array.from({ length: size }, () => new Float64Array(count));
	columns[0]?.fill(1);
	for (const [index, frequencyHz] of frequenciesHz.entries()) {
		fillColumns(
			columns[2 * index + 1] as Float64Array,
			columns[2 * index + 2] as Float64Array,
			(2 * Math.PI * frequencyHz) / sampleRateHz,
		);
	}
	const matrix = new Float64Array(size * size);
	const right = new Float64Array(size);
	for (let row = 0; row < size; row++) {
		const left = columns[row] as Float64Array;
		for (let column = 0; column <= row; column++) {
			const other = columns[column] as Float64Array;
			let sum = 0;
			for (let index = 0; index < count; index++) sum += (left[index] as number) * (other[index] as number);
			matrix[row * size + column] = sum;
		}
		let sum = 0;
		for (let index = 0; index < count; index++) sum += (left[index] as number) * (samples[index] as number);
		right[row] = sum;
	}
	const solution = symmetricSolve(matrix, right);
	const residual = Float64Array.from(samples);
	for (let row = 0; row < size; row++) {
		const column = columns[row] as Float64Array;
		const factor = solution[row] as number;
		for (let index = 0; index < count; index++)
			residual[index] = (residual[index] as number) - factor * (column[index] as number);
	}
	return {
		mean: solution[0] as number,
		sines: frequenciesHz.map((frequencyHz, index) => ({
			frequencyHz,
			cosine: solution[2 * index + 1] as number,
			sine: solution[2 * index + 2] as number,
		})),
		residual,
	};
}

/**
 * Frequency of the tone near a first guess, in hertz: the four-parameter fit of [ieee-1057], Gauss-Newton on the frequency
 * through the slope of the residual along the tone's quadrature times time. Good to the Cramer-Rao bound once the guess is within half a cycle over the samples.
 */
export function refinedFrequencyHz(samples: ArrayLike<number>, sampleRateHz: number, guessHz: number): number {
	let frequencyHz = guessHz;
	const middle = (samples.length - 1) / 2;
	for (let round = 0; round < 8; round++) {
		const { sines, residual } = fitSines(samples, sampleRateHz, [frequencyHz]);
		const tone = sines[0] as SineAmplitudes;
		const stepRad = (2 * Math.PI * frequencyHz) / sampleRateHz;
		// d(signal)/d(omega) = t * (-cosine sin + sine cos), t in samples from the middle.
		let along = 0;
		let square = 0;
		for (let index = 0; index < samples.length; index++) {
			const time = index - middle;
			const slope = time * (-tone.cosine * Math.sin(stepRad * time) + tone.sine * Math.cos(stepRad * time));
			along += slope * (residual[index] as number);
			square += slope * slope;
		}
		if (square === 0) return frequencyHz;
		const correctionHz = ((along / square) * sampleRateHz) / (2 * Math.PI);
		const mostHz = sampleRateHz / samples.length;
		frequencyHz += Math.max(-mostHz, Math.min(mostHz, correctionHz));
		if (!(frequencyHz > 0) || frequencyHz >= sampleRateHz / 2) return guessHz;
		if (Math.abs(correctionHz) < 1e-9 * frequencyHz) break;
	}
	return frequencyHz;
}

/**
 * Standard uncertainty of a fitted amplitude, in the samples' unit, from the residual's own strength beside the tone
 * (2 to 6 cycles over the samples away on either side), so that coloured noise is judged by what lies near the tone.
 * For white noise of variance s2 this estimates the bound sqrt(2 s2 / n) of [rife-boorstyn-1974].
 */
export function amplitudeUncertainty(residual: Float64Array, sampleRateHz: number, frequencyHz: number): number {
	const spacingHz = sampleRateHz / residual.length;
	const middle = (residual.length - 1) / 2;
	let squares = 0;
	let places = 0;
	for (const offset of [-6, -5, -4, -3, -2, 2, 3, 4, 5, 6]) {
		const besideHz = frequencyHz + offset * spacingHz;
		if (besideHz <= 0 || besideHz >= sampleRateHz / 2) continue;
		const stepRad = (2 * Math.PI * besideHz) / sampleRateHz;
		const doubled = 2 * Math.cos(stepRad);
		let last = 0;
		let before = 0;
		// Goertzel's recurrence: the power at one frequency without its sines.
		for (let index = 0; index < residual.length; index++) {
			const next = (residual[index] as number) + doubled * last - before;
			before = last;
			last = next;
		}
		const power = last * last + before * before - doubled * last * before;
		squares += power / (middle + 0.5) ** 2;
		places++;
	}
	return places === 0 ? 0 : Math.sqrt(squares / places / 2);
}
