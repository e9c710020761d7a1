import { type Complex, complex } from '#core/numeric/complex.ts';
import { complexMatrix, factorInPlace, solveFactored } from '#core/numeric/complex-matrix.ts';
import { matrixExponential } from '#core/numeric/matrix-exponential.ts';
import { stripStates, stripSystem } from './strip-system.ts';
import type { SetValues } from './values.ts';

/** Nodes into which currents are fed: converter's plate, IF tube's plate, diode's anode. */
export const fedNodes = [0, 2, 3] as const;
const feeds = fedNodes.length;

/**
 * The passive IF strip stepped exactly from one sample to the next. Voltages and currents are the real part of X e^(j w t) with w at the IF;
 * between samples a current follows a curve through its last two values and the next, so that
 * X(n+1) = turn * step * X(n) + next * J(n+1) + now * J(n) + last * J(n-1).
 * States and their order are those of `StripSystem`; columns of the inputs are the fed nodes, row by row.
 */
export interface StripStep {
	readonly step: Float64Array;
	readonly turn: Complex;
	readonly nextRe: Float64Array;
	readonly nextIm: Float64Array;
	readonly nowRe: Float64Array;
	readonly nowIm: Float64Array;
	readonly lastRe: Float64Array;
	readonly lastIm: Float64Array;
}

/**
 * The diode's current follows a straight line with this share of its second difference added. The parabola (-1/12) would let the stiff loop of diode and
 * reservoir swing from sample to sample without end, the bare line (0) would hardly damp it (tried).
 */
export const diodeBend = 1 / 24;

/** One step of the strip over `periodS` seconds, tube and diode left out: their currents are fed in. */
export function stripStep(values: SetValues, periodS: number): StripStep {
	const n = stripStates;
	const { rate, input } = stripSystem(values, 0, 0);
	const angle = 2 * Math.PI * values.ifHz * periodS;
	const step = matrixExponential(
		rate.map((entry) => entry * periodS),
		n,
	);
	const turn = complex(Math.cos(angle), -Math.sin(angle));
	// M = (A - jw) T; the integrals are phi1 = (e^M - 1)/M, phi2 = (phi1 - 1)/M, phi3 = (phi2 - 1/2)/M, here times T B.
	const matrix = complexMatrix(n);
	for (let k = 0; k < matrix.re.length; k++) matrix.re[k] = (rate[k] as number) * periodS;
	for (let k = 0; k < n; k++) matrix.im[k * n + k] = -angle;
	const order = new Int32Array(n);
	factorInPlace(matrix, order);
	const entries = () => new Float64Array(n * feeds);
	const made = {
		nextRe: entries(),
		nextIm: entries(),
		nowRe: entries(),
		nowIm: entries(),
		lastRe: entries(),
		lastIm: entries(),
	};
	const vector = () => ({ re: new Float64Array(n), im: new Float64Array(n) });
	const right = vector();
	const phi = [vector(), vector(), vector()] as const;
	for (let feed = 0; feed < feeds; feed++) {
		const fed = Float64Array.from(
			{ length: n },
			(_, row) => (input[row * 4 + (fedNodes[feed] as number)] as number) * periodS,
		);
		for (let row = 0; row < n; row++) {
			let sum = 0;
			for (let k = 0; k < n; k++) sum += (step[row * n + k] as number) * (fed[k] as number);
			right.re[row] = turn.re * sum - (fed[row] as number);
			right.im[row] = turn.im * sum;
		}
		const [one, two, three] = phi;
		solveFactored(matrix, order, right.re, right.im, one.re, one.im);
		for (let row = 0; row < n; row++) {
			right.re[row] = (one.re[row] as number) - (fed[row] as number);
			right.im[row] = one.im[row] as number;
		}
		solveFactored(matrix, order, right.re, right.im, two.re, two.im);
		for (let row = 0; row < n; row++) {
			right.re[row] = (two.re[row] as number) - (fed[row] as number) / 2;
			right.im[row] = two.im[row] as number;
		}
		solveFactored(matrix, order, right.re, right.im, three.re, three.im);
		// With s from 0 to 1, J(n) + s (J(n+1) - J(n)) + bend: for the parabola s (s - 1)/2 times the second difference.
		const isStiff = feed === feeds - 1;
		for (let row = 0; row < n; row++) {
			const at = row * feeds + feed;
			for (const part of ['Re', 'Im'] as const) {
				const of = part === 'Re' ? 're' : 'im';
				const [first, second, third] = [one[of][row] as number, two[of][row] as number, three[of][row] as number];
				const bend = isStiff ? diodeBend * first : third - second / 2;
				made[`next${part}`][at] = second + bend;
				made[`now${part}`][at] = first - second - 2 * bend;
				made[`last${part}`][at] = bend;
			}
		}
	}
	return { step, turn, ...made };
}
