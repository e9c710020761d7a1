import { type Complex, complex, conjugate, over, times } from '#core/numeric/complex.ts';
import { type ComplexMatrix, complexMatrix, factorInPlace, solveFactored } from '#core/numeric/complex-matrix.ts';
import { eigenvalues } from '#core/numeric/eigenvalues.ts';
import type { SetValues, WindingValues } from './values.ts';

/** States of the strip: the four node voltages, then the four coil currents times `currentScaleOhm`. */
export const stripStates = 8;
/** Currents are kept as volts across this resistance, so that all states are of one size. */
const currentScaleOhm = 3e3;

/**
 * The IF strip as dx/dt = A x + B j, with j the currents into its nodes: `rate` is A (row by row, 8 x 8, per second),
 * `input` the columns of B for each node (8 x 4, volts per second and ampere). Resistances are those at the IF and constant.
 */
export interface StripSystem {
	readonly rate: Float64Array;
	readonly input: Float64Array;
}

/** Room for a strip's equations and for what they are made of, node by node. */
interface StripRoom extends StripSystem {
	readonly elastance: Float64Array;
	readonly conductance: Float64Array;
}

/** Room for a strip's equations. */
export function stripRoom(): StripRoom {
	return {
		rate: new Float64Array(stripStates * stripStates),
		input: new Float64Array(stripStates * 4),
		elastance: new Float64Array(16),
		conductance: new Float64Array(16),
	};
}

/** Inverse of the symmetric matrix [first mutual; mutual second], in the same order. */
function inverse([first, second, mutual]: readonly [number, number, number]): readonly [number, number, number] {
	const determinant = first * second - mutual * mutual;
	return [second / determinant, first / determinant, -mutual / determinant];
}

/**
 * The strip's equations of motion.
 * @param ifTubeS transconductance counted as part of the strip; 0 when the tube's current is an input
 * @param diodeS conductance at the diode's node
 * @param room written over and given back; without it new room is made
 */
export function stripSystem(
	{ windings, mutualH, tubes }: SetValues,
	ifTubeS: number,
	diodeS: number,
	room = stripRoom(),
): StripSystem {
	const n = stripStates;
	const { rate, input, elastance, conductance } = room;
	for (const part of [rate, elastance, conductance]) part.fill(0);
	const faradOf = (at: number): number => (windings[at] as WindingValues).farad;
	// C, with the feedback condenser between grid and plate, inverted: nodes 1 and 2 are a pair, 0 and 3 stand alone.
	const [g1, g2, g12] = inverse([faradOf(1) + tubes.feedbackF, faradOf(2) + tubes.feedbackF, -tubes.feedbackF]);
	elastance[0] = 1 / faradOf(0);
	elastance[5] = g1;
	elastance[6] = g12;
	elastance[9] = g12;
	elastance[10] = g2;
	elastance[15] = 1 / faradOf(3);
	windings.forEach((winding, at) => {
		conductance[5 * at] = winding.siemens;
	});
	conductance[0] = (conductance[0] as number) + 1 / tubes.converterPlateOhm;
	conductance[10] = (conductance[10] as number) + 1 / tubes.ifTubePlateOhm;
	conductance[15] = (conductance[15] as number) + diodeS;
	conductance[9] = ifTubeS;
	for (let row = 0; row < 4; row++) {
		for (let column = 0; column < 4; column++) {
			const e = elastance[row * 4 + column] as number;
			input[row * 4 + column] = e;
			rate[row * n + 4 + column] = -e / currentScaleOhm;
			let sum = 0;
			for (let k = 0; k < 4; k++) sum += (elastance[row * 4 + k] as number) * (conductance[k * 4 + column] as number);
			rate[row * n + column] = -sum;
		}
	}
	for (let transformer = 0; transformer < 2; transformer++) {
		const at = 2 * transformer;
		const first = windings[at] as WindingValues;
		const second = windings[at + 1] as WindingValues;
		const [l1, l2, lm] = inverse([first.henry, second.henry, mutualH[transformer as 0 | 1]]);
		const put = (row: number, column: number, perHenry: number, ohm: number): void => {
			rate[(4 + row) * n + column] = perHenry * currentScaleOhm;
			rate[(4 + row) * n + 4 + column] = -perHenry * ohm;
		};
		put(at, at, l1, first.ohm);
		put(at, at + 1, lm, second.ohm);
		put(at + 1, at, lm, first.ohm);
		put(at + 1, at + 1, l2, second.ohm);
	}
	return room;
}

/** A natural frequency of the strip: it rings at `frequencyHz` and dies with `decayPerS`; a negative decay grows: the strip oscillates by itself. */
export interface Pole {
	readonly frequencyHz: number;
	readonly decayPerS: number;
}

function poleParts(system: StripSystem, centreRad: number): { readonly re: Float64Array; readonly im: Float64Array } {
	const matrix = complexMatrix(stripStates);
	for (let k = 0; k < matrix.re.length; k++) matrix.re[k] = (system.rate[k] as number) / centreRad;
	return eigenvalues(matrix);
}

/** The four natural frequencies near the IF, lowest first. */
export function stripPoles(values: SetValues, ifTubeS: number, diodeS: number): readonly Pole[] {
	const centreRad = 2 * Math.PI * values.ifHz;
	const { re, im } = poleParts(stripSystem(values, ifTubeS, diodeS), centreRad);
	return Array.from(re, (real, k) => ({ frequencyHz: (im[k] as number) * values.ifHz, decayPerS: -real * centreRad }))
		.filter(({ frequencyHz }) => frequencyHz > 0)
		.sort((a, b) => a.frequencyHz - b.frequencyHz);
}

/**
 * The strip's answer over many frequencies by its natural frequencies: H(s) = sum of residue / (s - pole), two poles a term,
 * each pole with its conjugate (or with another real one): (constant + slope s) / (s^2 + damping s + square), all real.
 * Made once, it costs a handful of operations a frequency.
 */
export class StripResponse {
	readonly #terms: readonly PairTerm[];

	/** Volts at node `to` for an ampere into node `from`. */
	constructor(values: SetValues, ifTubeS: number, diodeS: number, from: number, to: number) {
		const centreRad = 2 * Math.PI * values.ifHz;
		const system = stripSystem(values, ifTubeS, diodeS);
		const { re, im } = poleParts(system, centreRad);
		const inputs = Float64Array.from({ length: stripStates }, (_, row) => system.input[row * 4 + from] as number);
		const realWithin = 1e-9;
		const modes = Array.from(re, (poleRe, k) => ({ poleRe, poleIm: im[k] as number }))
			.filter(({ poleIm }) => poleIm > -realWithin)
			.map(({ poleRe, poleIm }): Mode => {
				// Right and left eigenvectors by inverse iteration from a slightly moved pole.
				const right = eigenvector(system.rate, poleRe, poleIm, centreRad, false);
				const left = eigenvector(system.rate, poleRe, poleIm, centreRad, true);
				const drivenOut = times(dot(left, inputs), complex(right.re[to] as number, right.im[to] as number));
				return {
					pole: complex(poleRe * centreRad, poleIm * centreRad),
					residue: over(drivenOut, product(left, right)),
				};
			});
		this.#terms = pairTerms(modes, realWithin * centreRad);
	}

	/** Transfer impedance at a frequency, ohms. */
	at(frequencyHz: number): Complex {
		const omega = 2 * Math.PI * frequencyHz;
		let re = 0;
		let im = 0;
		for (const { constantOhmPerS, slopeOhm, dampingPerS, squarePerS } of this.#terms) {
			const belowRe = squarePerS - omega * omega;
			const belowIm = dampingPerS * omega;
			const aboveIm = slopeOhm * omega;
			const perWeight = 1 / (belowRe * belowRe + belowIm * belowIm);
			re += (constantOhmPerS * belowRe + aboveIm * belowIm) * perWeight;
			im += (aboveIm * belowRe - constantOhmPerS * belowIm) * perWeight;
		}
		return complex(re, im);
	}
}

interface Mode {
	readonly pole: Complex;
	readonly residue: Complex;
}

interface PairTerm {
	/** Ohms per second squared. */
	readonly constantOhmPerS: number;
	/** Ohms per second. */
	readonly slopeOhm: number;
	readonly dampingPerS: number;
	/** Per second squared. */
	readonly squarePerS: number;
}

/** A real system's modes on and above the real axis, two by two: poles nearer to the axis than `realWithinPerS` count as real. */
function pairTerms(modes: readonly Mode[], realWithinPerS: number): PairTerm[] {
	const upper = modes.filter(({ pole }) => pole.im > realWithinPerS).map((mode) => [mode, conjugateOf(mode)] as const);
	const real = modes
		.filter(({ pole }) => pole.im <= realWithinPerS)
		.map(({ pole, residue }) => ({ pole: complex(pole.re, 0), residue: complex(residue.re, 0) }));
	const nothing: Mode = { pole: complex(0, 0), residue: complex(0, 0) };
	const others = Array.from({ length: Math.ceil(real.length / 2) }, (_, k) => {
		return [real[2 * k] as Mode, real[2 * k + 1] ?? nothing] as const;
	});
	return [...upper, ...others].map(([a, b]) => ({
		constantOhmPerS: -(times(a.residue, b.pole).re + times(b.residue, a.pole).re),
		slopeOhm: a.residue.re + b.residue.re,
		dampingPerS: -(a.pole.re + b.pole.re),
		squarePerS: times(a.pole, b.pole).re,
	}));
}

function conjugateOf({ pole, residue }: Mode): Mode {
	return { pole: conjugate(pole), residue: conjugate(residue) };
}

interface ComplexVector {
	readonly re: Float64Array;
	readonly im: Float64Array;
}

function eigenvector(rate: Float64Array, re: number, im: number, centreRad: number, isLeft: boolean): ComplexVector {
	const n = stripStates;
	const matrix: ComplexMatrix = complexMatrix(n);
	for (let row = 0; row < n; row++) {
		for (let column = 0; column < n; column++) {
			const from = isLeft ? column * n + row : row * n + column;
			matrix.re[row * n + column] = (rate[from] as number) / centreRad;
		}
		matrix.re[row * n + row] = (matrix.re[row * n + row] as number) - re * (1 + 1e-12) - 1e-15;
		matrix.im[row * n + row] = -im;
	}
	const order = new Int32Array(n);
	factorInPlace(matrix, order);
	let vector = { re: new Float64Array(n).fill(1), im: new Float64Array(n) };
	for (let step = 0; step < 3; step++) {
		const next = { re: new Float64Array(n), im: new Float64Array(n) };
		solveFactored(matrix, order, vector.re, vector.im, next.re, next.im);
		const length = Math.sqrt(next.re.reduce((sum, part, k) => sum + part * part + (next.im[k] as number) ** 2, 0));
		vector = { re: next.re.map((part) => part / length), im: next.im.map((part) => part / length) };
	}
	return vector;
}

/** Plain product of two vectors, without conjugates. */
function product(a: ComplexVector, b: ComplexVector): Complex {
	let re = 0;
	let im = 0;
	for (let k = 0; k < a.re.length; k++) {
		const aRe = a.re[k] as number;
		const aIm = a.im[k] as number;
		const bRe = b.re[k] as number;
		const bIm = b.im[k] as number;
		re += aRe * bRe - aIm * bIm;
		im += aRe * bIm + aIm * bRe;
	}
	return complex(re, im);
}

function dot(a: ComplexVector, real: Float64Array): Complex {
	let re = 0;
	let im = 0;
	for (let k = 0; k < real.length; k++) {
		re += (a.re[k] as number) * (real[k] as number);
		im += (a.im[k] as number) * (real[k] as number);
	}
	return complex(re, im);
}
