/** `to = a b` for real square matrices, row by row; `to` is neither of them. */
function multiply(a: Float64Array, b: Float64Array, size: number, to: Float64Array): void {
	to.fill(0);
	for (let row = 0; row < size; row++) {
		for (let k = 0; k < size; k++) {
			const factor = a[row * size + k] as number;
			if (factor === 0) continue;
			for (let column = 0; column < size; column++) {
				const at = row * size + column;
				to[at] = (to[at] as number) + factor * (b[k * size + column] as number);
			}
		}
	}
}

/** Terms of the series; with entries scaled below a half the rest is below 1e-14. */
const terms = 12;

/** Exponential of a real square matrix, row by row: Taylor's series of the matrix halved often enough, squared as often. */
export function matrixExponential(matrix: Float64Array, size: number): Float64Array {
	let norm = 0;
	for (let row = 0; row < size; row++) {
		let sum = 0;
		for (let column = 0; column < size; column++) sum += Math.abs(matrix[row * size + column] as number);
		norm = Math.max(norm, sum);
	}
	const halvings = Math.max(0, Math.ceil(Math.log2(norm / 0.5)));
	const small = matrix.map((entry) => entry / 2 ** halvings);
	let sum = new Float64Array(size * size);
	let other = new Float64Array(size * size);
	const addOne = (to: Float64Array): void => {
		for (let k = 0; k < size; k++) to[k * size + k] = (to[k * size + k] as number) + 1;
	};
	addOne(sum);
	for (let term = terms; term >= 1; term--) {
		multiply(small, sum, size, other);
		for (let k = 0; k < other.length; k++) other[k] = (other[k] as number) / term;
		addOne(other);
		[sum, other] = [other, sum];
	}
	for (let k = 0; k < halvings; k++) {
		multiply(sum, sum, size, other);
		[sum, other] = [other, sum];
	}
	return sum;
}
