/**
 * The solution x of A x = b for a symmetric positive definite A, by Cholesky's factors.
 * @param matrix length n * n, row by row; only the lower triangle is read; kept as it is
 * @param right length n
 * @throws when A is not positive definite: the unknowns are not independent
 * @example Array.from(symmetricSolve(Float64Array.of(4, 0, 0, 16), Float64Array.of(8, 8))) // => [2, 0.5]
 */
export function symmetricSolve(matrix: Float64Array, right: Float64Array): Float64Array {
	const size = right.length;
	const lower = new Float64Array(size * size);
	for (let row = 0; row < size; row++) {
		for (let column = 0; column <= row; column++) {
			let sum = matrix[row * size + column] as number;
			for (let k = 0; k < column; k++) sum -= (lower[row * size + k] as number) * (lower[column * size + k] as number);
			if (row === column) {
				if (!(sum > (matrix[row * size + row] as number) * 1e-13)) {
					throw new Error(`invalid matrix: pivot ${row} is ${sum}, expected a positive definite matrix`);
				}
				lower[row * size + row] = Math.sqrt(sum);
			} else {
				lower[row * size + column] = sum / (lower[column * size + column] as number);
			}
		}
	}
	const solution = Float64Array.from(right);
	for (let row = 0; row < size; row++) {
		let sum = solution[row] as number;
		for (let k = 0; k < row; k++) sum -= (lower[row * size + k] as number) * (solution[k] as number);
		solution[row] = sum / (lower[row * size + row] as number);
	}
	for (let row = size - 1; row >= 0; row--) {
		let sum = solution[row] as number;
		for (let k = row + 1; k < size; k++) sum -= (lower[k * size + row] as number) * (solution[k] as number);
		solution[row] = sum / (lower[row * size + row] as number);
	}
	return solution;
}
