/**
 * What the model gives at one frequency: the natural logarithm of the strip's complex response in place 0,
 * its derivatives by the parameters after it.
 */
export interface ResponseAt {
	readonly re: Float64Array;
	readonly im: Float64Array;
}

/** A strip of tuned circuits as a function of frequency; `size` counts its parameters. */
export interface ResponseModel {
	readonly size: number;
	/**
	 * @param ratio frequency over the aimed IF
	 * @param out both arrays of length size + 1, to be filled
	 */
	at(parameters: ArrayLike<number>, ratio: number, out: ResponseAt): void;
}

function space(size: number): ResponseAt {
	return { re: new Float64Array(size + 1), im: new Float64Array(size + 1) };
}

const decibelsPerNeper = 20 / Math.LN10;

/**
 * Level in decibels that an ideal envelope detector gives at one generator frequency, in place 0, and its derivatives after it.
 * Without a tone it is the carrier's level; with one, the level of the tone: |H(f + t) / H(f) + conj(H(f - t) / H(f))| |H(f)| / 2.
 * The envelope's own curvature is left out: below 0.01 dB at 400 c and 30 %.
 * @param toneRatio tone over the aimed IF; 0 for the carrier itself
 */
export function levelFunction(
	model: ResponseModel,
	toneRatio: number,
): (parameters: ArrayLike<number>, ratio: number, out: Float64Array) => void {
	const size = model.size;
	const middle = space(size);
	if (toneRatio === 0) {
		return (parameters, ratio, out) => {
			model.at(parameters, ratio, middle);
			for (let place = 0; place <= size; place++) out[place] = decibelsPerNeper * (middle.re[place] as number);
		};
	}
	const above = space(size);
	const below = space(size);
	return (parameters, ratio, out) => {
		model.at(parameters, ratio, middle);
		model.at(parameters, ratio + toneRatio, above);
		model.at(parameters, ratio - toneRatio, below);
		const re0 = middle.re[0] as number;
		const im0 = middle.im[0] as number;
		const upper = Math.exp((above.re[0] as number) - re0);
		const upperRad = (above.im[0] as number) - im0;
		const lower = Math.exp((below.re[0] as number) - re0);
		const lowerRad = im0 - (below.im[0] as number);
		const upRe = upper * Math.cos(upperRad);
		const upIm = upper * Math.sin(upperRad);
		const lowRe = lower * Math.cos(lowerRad);
		const lowIm = lower * Math.sin(lowerRad);
		const re = upRe + lowRe;
		const im = upIm + lowIm;
		const square = re * re + im * im;
		out[0] = decibelsPerNeper * (re0 + 0.5 * Math.log(square / 4));
		for (let place = 1; place <= size; place++) {
			const m0 = middle.re[place] as number;
			const n0 = middle.im[place] as number;
			const ar = (above.re[place] as number) - m0;
			const ai = (above.im[place] as number) - n0;
			const br = (below.re[place] as number) - m0;
			const bi = n0 - (below.im[place] as number);
			const slopeRe = upRe * ar - upIm * ai + lowRe * br - lowIm * bi;
			const slopeIm = upRe * ai + upIm * ar + lowRe * bi + lowIm * br;
			out[place] = decibelsPerNeper * (m0 + (re * slopeRe + im * slopeIm) / square);
		}
	};
}

/**
 * A strip as the product of single resonances: for each, the tuning as a share of the aimed IF (f / IF - 1) and the logarithm of half its width over the IF (g / IF).
 * Each pair of coupled windings, whatever its coupling, and a strip with feedback as a whole, are exactly such a product.
 * @param count number of resonances
 */
export function resonanceModel(count: number): ResponseModel {
	const size = 2 * count;
	return {
		size,
		at(parameters, ratio, { re, im }) {
			let sumRe = (count / 2) * Math.log(ratio);
			let sumIm = 0;
			for (let place = 0; place < count; place++) {
				const tuned = 1 + (parameters[place] as number);
				const half = Math.exp(parameters[count + place] as number);
				const real = tuned * tuned - ratio * ratio;
				const imaginary = 2 * ratio * half;
				const square = real * real + imaginary * imaginary;
				sumRe -= 0.5 * Math.log(square);
				sumIm -= Math.atan2(imaginary, real);
				re[1 + place] = (-2 * tuned * real) / square;
				im[1 + place] = (2 * tuned * imaginary) / square;
				re[1 + count + place] = (-imaginary * imaginary) / square;
				im[1 + count + place] = (-imaginary * real) / square;
			}
			re[0] = sumRe;
			im[0] = sumIm;
		},
	};
}
