import { complexMatrix, factorInPlace, solveFactored } from '#core/numeric/complex-matrix.ts';
import { MatrixExponential } from '#core/numeric/matrix-exponential.ts';
import { stripRoom, stripStates, stripSystem } from './strip-system.ts';
import type { SetValues } from './values.ts';

/** Nodes into which currents are fed: converter's plate, IF tube's grid and plate, diode's anode. */
export const fedNodes = [0, 1, 2, 3] as const;
const feeds = fedNodes.length;
const n = stripStates;

/**
 * The diode's current follows a straight line with this share of its second difference added. The parabola (-1/12) would let the stiff loop of diode and
 * reservoir swing from sample to sample without end, the bare line (0) would hardly damp it (tried).
 */
export const diodeBend = 1 / 24;

interface Vector {
	readonly re: Float64Array;
	readonly im: Float64Array;
}

const vector = (length: number): Vector => ({ re: new Float64Array(length), im: new Float64Array(length) });

/**
 * The passive IF strip stepped exactly from one sample to the next; tube and diode are left out, their currents are fed in. Voltages and currents are the
 * real part of X e^(j w t), w being the frame's; between samples a current follows a curve through its last two values and the next, so that
 * X(n+1) = turn * step * X(n) + next * J(n+1) + now * J(n) + last * J(n-1).
 * States and their order are those of `StripSystem`; columns of the inputs are the fed nodes, row by row.
 * All room is the stepper's own: an adjuster that moves in the middle of a sound asks for no memory.
 */
export class StripStepper {
	step: Float64Array = new Float64Array(n * n);
	readonly turn = { re: 1, im: 0 };
	readonly next = vector(n * feeds);
	readonly now = vector(n * feeds);
	readonly last = vector(n * feeds);
	readonly #periodS: number;
	readonly #system = stripRoom();
	readonly #exponential = new MatrixExponential(n);
	readonly #matrix = complexMatrix(n);
	readonly #order = new Int32Array(n);
	readonly #fed = new Float64Array(n);
	readonly #right = vector(n);
	readonly #phi = [vector(n), vector(n), vector(n)] as const;

	/** @param frameHz at which the frame turns */
	constructor(values: SetValues, periodS: number, frameHz: number) {
		this.#periodS = periodS;
		this.change(values, frameHz);
	}

	/** Takes the stepper to other values of the strip and to a frame that turns at `frameHz` from this sample on. */
	change(values: SetValues, frameHz: number): void {
		const { rate, input } = stripSystem(values, 0, 0, this.#system);
		const angle = 2 * Math.PI * frameHz * this.#periodS;
		this.step = this.#exponential.of(rate, this.#periodS);
		this.turn.re = Math.cos(angle);
		this.turn.im = -Math.sin(angle);
		const matrix = this.#matrix;
		for (let k = 0; k < n * n; k++) matrix.re[k] = (rate[k] as number) * this.#periodS;
		matrix.im.fill(0);
		for (let k = 0; k < n; k++) matrix.im[k * n + k] = -angle;
		factorInPlace(matrix, this.#order);
		fedNodes.forEach((column, at) => {
			for (let row = 0; row < n; row++) this.#fed[row] = (input[row * 4 + column] as number) * this.#periodS;
			this.#integrate();
			this.#curve(at);
		});
	}

	/** With M = (A - jw) T, times T B: phi1 = (e^M - 1)/M, phi2 = (phi1 - 1)/M, phi3 = (phi2 - 1/2)/M. */
	#integrate(): void {
		const { step, turn } = this;
		const fed = this.#fed;
		const right = this.#right;
		for (let row = 0; row < n; row++) {
			let sum = 0;
			for (let k = 0; k < n; k++) sum += (step[row * n + k] as number) * (fed[k] as number);
			right.re[row] = turn.re * sum - (fed[row] as number);
			right.im[row] = turn.im * sum;
		}
		const [one, two, three] = this.#phi;
		this.#divide(one);
		this.#takeFrom(one, 1);
		this.#divide(two);
		this.#takeFrom(two, 1 / 2);
		this.#divide(three);
	}

	/** The right side by M. */
	#divide(into: Vector): void {
		solveFactored(this.#matrix, this.#order, this.#right.re, this.#right.im, into.re, into.im);
	}

	#takeFrom({ re, im }: Vector, share: number): void {
		for (let row = 0; row < n; row++) {
			this.#right.re[row] = (re[row] as number) - share * (this.#fed[row] as number);
			this.#right.im[row] = im[row] as number;
		}
	}

	/** With s from 0 to 1 a current is J(n) + s (J(n+1) - J(n)) + bend: for the parabola s (s - 1)/2 times the second difference. */
	#curve(place: number): void {
		const isStiff = place === feeds - 1;
		const { next, now, last } = this;
		for (const part of ['re', 'im'] as const) {
			const [one, two, three] = [this.#phi[0][part], this.#phi[1][part], this.#phi[2][part]];
			for (let row = 0; row < n; row++) {
				const at = row * feeds + place;
				const first = one[row] as number;
				const second = two[row] as number;
				const bend = isStiff ? diodeBend * first : (three[row] as number) - second / 2;
				next[part][at] = second + bend;
				now[part][at] = first - second - 2 * bend;
				last[part][at] = bend;
			}
		}
	}
}
