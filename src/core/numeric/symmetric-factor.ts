import { symmetricSolve } from './symmetric-solve.ts';

/**
 * The lower factor L of a symmetric matrix without negative directions, A = L L'; what rounding has made negative counts as nought.
 * @param matrix size * size, row by row
 * @example Array.from(lowerFactor(Float64Array.of(4, 2, 2, 10), 2)) // => [2, 0, 1, 3]
 */
export function lowerFactor(matrix: Float64Array, size: number): Float64Array {
	const lower = new Float64Array(size * size);
	for (let row = 0; row < size; row++) {
		for (let column = 0; column <= row; column++) {
			let sum = matrix[row * size + column] as number;
			for (let k = 0; k < column; k++) sum -= (lower[row * size + k] as number) * (lower[column * size + k] as number);
			const pivot = lower[column * size + column] as number;
			lower[row * size + column] = row === column ? Math.sqrt(Math.max(sum, 0)) : pivot > 0 ? sum / pivot : 0;
		}
	}
	return lower;
}

/**
 * Inverse of a symmetric positive definite matrix, and the logarithm of its determinant.
 * @param matrix size * size, row by row
 */
export function invertedSymmetric(
	matrix: Float64Array,
	size: number,
): { readonly inverse: Float64Array; readonly logDeterminant: number } {
	const inverse = new Float64Array(size * size);
	for (let column = 0; column < size; column++) {
		const unit = new Float64Array(size);
		unit[column] = 1;
		inverse.set(symmetricSolve(matrix, unit), column * size);
	}
	const lower = lowerFactor(matrix, size);
	let logDeterminant = 0;
	for (let place = 0; place < size; place++) logDeterminant += 2 * Math.log(lower[place * size + place] as number);
	return { inverse, logDeterminant };
}
