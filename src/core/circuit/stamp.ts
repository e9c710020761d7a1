import type { ComplexMatrix } from '#core/numeric/complex-matrix.ts';

/**
 * Nodal equations, a part at a time: each function adds one part to the admittance matrix of a circuit.
 * Nodes are counted from 0; `ground` is the reference and has no row.
 */
export const ground = -1;

function add({ size, re, im }: ComplexMatrix, row: number, column: number, yRe: number, yIm: number): void {
	if (row < 0 || column < 0) return;
	const at = row * size + column;
	re[at] = (re[at] as number) + yRe;
	im[at] = (im[at] as number) + yIm;
}

/** An admittance of `yRe + j yIm` siemens between two nodes. */
export function stampAdmittance(matrix: ComplexMatrix, one: number, other: number, yRe: number, yIm: number): void {
	add(matrix, one, one, yRe, yIm);
	add(matrix, other, other, yRe, yIm);
	add(matrix, one, other, -yRe, -yIm);
	add(matrix, other, one, -yRe, -yIm);
}

/** A current of `siemens` times the voltage of node `control` that flows out of node `plate` to ground. */
export function stampTransconductance(matrix: ComplexMatrix, plate: number, control: number, siemens: number): void {
	add(matrix, plate, control, siemens, 0);
}

/** Two coupled coils, each with one end on ground. */
export interface CoupledCoils {
	readonly firstH: number;
	readonly firstOhm: number;
	readonly secondH: number;
	readonly secondOhm: number;
	/** Mutual inductance; its sign is the sense of the windings. */
	readonly mutualH: number;
}

/** Two coupled coils from two nodes to ground: the inverse of their impedance matrix. */
export function stampCoupledCoils(
	matrix: ComplexMatrix,
	one: number,
	other: number,
	coils: CoupledCoils,
	omega: number,
): void {
	const x1 = omega * coils.firstH;
	const x2 = omega * coils.secondH;
	const xm = omega * coils.mutualH;
	// (r1 + j x1)(r2 + j x2) - (j xm)^2
	const dRe = coils.firstOhm * coils.secondOhm - x1 * x2 + xm * xm;
	const dIm = coils.firstOhm * x2 + coils.secondOhm * x1;
	const weight = dRe * dRe + dIm * dIm;
	add(matrix, one, one, (coils.secondOhm * dRe + x2 * dIm) / weight, (x2 * dRe - coils.secondOhm * dIm) / weight);
	add(matrix, other, other, (coils.firstOhm * dRe + x1 * dIm) / weight, (x1 * dRe - coils.firstOhm * dIm) / weight);
	const mRe = (-xm * dIm) / weight;
	const mIm = (-xm * dRe) / weight;
	add(matrix, one, other, mRe, mIm);
	add(matrix, other, one, mRe, mIm);
}
