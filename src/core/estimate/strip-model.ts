import type { ResponseAt, ResponseModel } from './response-model.ts';

/** Places of the parameters of a strip of two coupled pairs. */
export const stripPlaces = {
	/** Four tunings, f / IF - 1: first winding and second of the first can, then of the second can. */
	tuning: 0,
	/** Four logarithms of half the width over the IF, g / IF = 1 / (2 Q). */
	halfWidth: 4,
	/** Two logarithms of the coupling k. */
	coupling: 8,
	/** Feedback through the tube between the cans, as a share: gm Cgp / (C2 C3) / (2 pi IF). */
	feedback: 10,
	size: 11,
} as const;

/** Loads across the four windings, each as conductance over capacitance and over 2 pi IF: 0 for none. */
type Loads = readonly [number, number, number, number];

/**
 * Transfer impedance V2 / I1 of two pairs of coupled windings in cascade, with feedback through a tube between the second winding of the first can and the first of the second.
 * Exact for mutual coupling and series coil losses: M s w1^2 w2^2 / (P1 P2 - k^2 s^4) each, P = s^2 + 2 g s + w^2; the feedback adds b s N2 N3 to the product, N = (s + 2 g) P - k^2 s^3.
 * Trimming is by capacitance: g stays as it is. A load across a winding is counted in its g; what it does to the coupling besides, k^2 (1 + G1 / (s C1)) (1 + G2 / (s C2)), is exact where the loads are given.
 */
export function stripModel(loads: Loads = [0, 0, 0, 0]): ResponseModel {
	const first = new Can(0, loads[0], loads[1]);
	const second = new Can(2, loads[2], loads[3]);
	return {
		size: stripPlaces.size,
		at(parameters, ratio, out) {
			first.evaluate(parameters, ratio);
			second.evaluate(parameters, ratio);
			strip(first, second, parameters, ratio, out);
		},
	};
}

/** One can at one frequency, in plain numbers because it is evaluated a million times in a fit: its own D = P1 P2 - k^2 s^4 and what the feedback needs of it. */
class Can {
	readonly #place: number;
	readonly #loadSum: number;
	readonly #loadProduct: number;
	/** P of both windings: w^2 - u^2 + 2 j u g, over the IF squared. */
	readonly pRe = new Float64Array(2);
	readonly pIm = new Float64Array(2);
	readonly tuned = new Float64Array(2);
	dRe = 0;
	dIm = 0;
	/** k^2 s^4 with the loads' turn. */
	kRe = 0;
	kIm = 0;
	coupling = 0;

	constructor(place: 0 | 2, one: number, other: number) {
		this.#place = place;
		this.#loadSum = one + other;
		this.#loadProduct = one * other;
	}

	evaluate(parameters: ArrayLike<number>, ratio: number): void {
		const square = ratio * ratio;
		for (let winding = 0; winding < 2; winding++) {
			const tuned = 1 + (parameters[this.#place + winding] as number);
			this.tuned[winding] = tuned;
			this.pRe[winding] = tuned * tuned - square;
			this.pIm[winding] = 2 * ratio * Math.exp(parameters[stripPlaces.halfWidth + this.#place + winding] as number);
		}
		this.coupling = Math.exp(2 * (parameters[stripPlaces.coupling + this.#place / 2] as number));
		const k = this.coupling * square * square;
		this.kRe = k * (1 - this.#loadProduct / square);
		this.kIm = (-k * this.#loadSum) / ratio;
		const [p, q] = [this.pRe[0] as number, this.pRe[1] as number];
		const [r, s] = [this.pIm[0] as number, this.pIm[1] as number];
		this.dRe = p * q - r * s - this.kRe;
		this.dIm = p * s + r * q - this.kIm;
	}
}

/** The whole product, as one over its value, and where its derivatives go. */
interface Whole extends ResponseAt {
	readonly unitRe: number;
	readonly unitIm: number;
}

/** The derivative of the logarithm by one parameter, from the product's. */
function put({ re, im, unitRe, unitIm }: Whole, place: number, slopeRe: number, slopeIm: number, plus: number): void {
	re[place] = plus - slopeRe * unitRe - slopeIm * unitIm;
	im[place] = slopeRe * unitIm - slopeIm * unitRe;
}

/** Derivatives by the tuning and the width of one winding. */
function putWinding(
	whole: Whole,
	place: number,
	own: Can,
	at: 0 | 1,
	slopeRe: number,
	slopeIm: number,
	widthRe: number,
	widthIm: number,
): void {
	const tuned = own.tuned[at] as number;
	const width = own.pIm[at] as number;
	put(whole, 1 + place, 2 * tuned * slopeRe, 2 * tuned * slopeIm, 2 / tuned);
	put(whole, 5 + place, -width * slopeIm + widthRe, width * slopeRe + widthIm, 0);
}

/** A winding's P times the other can's D. */
function partner(own: Can, other: Can, at: 0 | 1): readonly [number, number] {
	const pr = own.pRe[at] as number;
	const pi = own.pIm[at] as number;
	return [pr * other.dRe - pi * other.dIm, pr * other.dIm + pi * other.dRe];
}

/** The whole product with feedback, its logarithm and derivatives. `near` windings are those beside the tube. */
function strip(a: Can, b: Can, parameters: ArrayLike<number>, ratio: number, { re, im }: ResponseAt): void {
	const fed = parameters[stripPlaces.feedback] as number;
	const cube = ratio ** 3;
	const p0r = a.pRe[0] as number;
	const p0i = a.pIm[0] as number;
	const p1i = a.pIm[1] as number;
	const p2i = b.pIm[0] as number;
	const p3r = b.pRe[1] as number;
	const p3i = b.pIm[1] as number;
	// N over s^0: (2 g + j u) P + j k^2 u^3 on either side of the tube.
	const g1 = p1i / ratio;
	const g2 = p2i / ratio;
	const n2r = g1 * p0r - ratio * p0i;
	const n2i = g1 * p0i + ratio * p0r + a.coupling * cube;
	const n3r = g2 * p3r - ratio * p3i;
	const n3i = g2 * p3i + ratio * p3r + b.coupling * cube;
	// j u N2 N3
	const loopR = -ratio * (n2r * n3i + n2i * n3r);
	const loopI = ratio * (n2r * n3r - n2i * n3i);
	const wholeR = a.dRe * b.dRe - a.dIm * b.dIm + fed * loopR;
	const wholeI = a.dRe * b.dIm + a.dIm * b.dRe + fed * loopI;
	const size = wholeR * wholeR + wholeI * wholeI;
	const whole = { re, im, unitRe: wholeR / size, unitIm: wholeI / size };
	// fed j u N3 and fed j u N2
	const by2r = -fed * ratio * n3i;
	const by2i = fed * ratio * n3r;
	const by3r = -fed * ratio * n2i;
	const by3i = fed * ratio * n2r;
	const [d0r, d0i] = partner(a, b, 1);
	putWinding(whole, 0, a, 0, d0r + by2r * g1 - by2i * ratio, d0i + by2r * ratio + by2i * g1, 0, 0);
	const [d1r, d1i] = partner(a, b, 0);
	putWinding(whole, 1, a, 1, d1r, d1i, g1 * (by2r * p0r - by2i * p0i), g1 * (by2r * p0i + by2i * p0r));
	const [d2r, d2i] = partner(b, a, 1);
	putWinding(whole, 2, b, 0, d2r, d2i, g2 * (by3r * p3r - by3i * p3i), g2 * (by3r * p3i + by3i * p3r));
	const [d3r, d3i] = partner(b, a, 0);
	putWinding(whole, 3, b, 1, d3r + by3r * g2 - by3i * ratio, d3i + by3r * ratio + by3i * g2, 0, 0);
	const turn2 = 2 * a.coupling * cube;
	const turn3 = 2 * b.coupling * cube;
	put(
		whole,
		9,
		-2 * (a.kRe * b.dRe - a.kIm * b.dIm) - by2i * turn2,
		-2 * (a.kRe * b.dIm + a.kIm * b.dRe) + by2r * turn2,
		1,
	);
	put(
		whole,
		10,
		-2 * (b.kRe * a.dRe - b.kIm * a.dIm) - by3i * turn3,
		-2 * (b.kRe * a.dIm + b.kIm * a.dRe) + by3r * turn3,
		1,
	);
	put(whole, 11, loopR, loopI, 0);
	const tunings = (a.tuned[0] as number) * (a.tuned[1] as number) * (b.tuned[0] as number) * (b.tuned[1] as number);
	re[0] =
		2 * Math.log(ratio * tunings) +
		(parameters[stripPlaces.coupling] as number) +
		(parameters[stripPlaces.coupling + 1] as number) -
		0.5 * Math.log(size);
	im[0] = -Math.atan2(wholeI, wholeR);
}
