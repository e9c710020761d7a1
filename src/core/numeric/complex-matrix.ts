/** A square complex matrix, row by row. */
export interface ComplexMatrix {
	readonly size: number;
	readonly re: Float64Array;
	readonly im: Float64Array;
}

/** A square complex matrix of zeros. */
export function complexMatrix(size: number): ComplexMatrix {
	return { size, re: new Float64Array(size * size), im: new Float64Array(size * size) };
}

/**
 * Factors of a matrix, in its place (Gauss with row exchange). Dense: meant for a dozen unknowns or fewer.
 * @param order filled with the order of the rows; length `size`
 * @throws when the matrix has no inverse
 */
export function factorInPlace(matrix: ComplexMatrix, order: Int32Array): void {
	const { size, re, im } = matrix;
	for (let row = 0; row < size; row++) order[row] = row;
	for (let column = 0; column < size; column++) {
		let best = -1;
		let largest = 0;
		for (let row = column; row < size; row++) {
			const at = row * size + column;
			const weight = (re[at] as number) ** 2 + (im[at] as number) ** 2;
			if (weight > largest) {
				largest = weight;
				best = row;
			}
		}
		if (best < 0) throw new Error(`the circuit's equations have no single solution (unknown ${column})`);
		if (best !== column) exchangeRows(matrix, order, best, column);
		const pivot = column * size + column;
		const inverseRe = (re[pivot] as number) / largest;
		const inverseIm = -(im[pivot] as number) / largest;
		for (let row = column + 1; row < size; row++) {
			const at = row * size + column;
			const aRe = re[at] as number;
			const aIm = im[at] as number;
			const fRe = aRe * inverseRe - aIm * inverseIm;
			const fIm = aRe * inverseIm + aIm * inverseRe;
			re[at] = fRe;
			im[at] = fIm;
			if (fRe === 0 && fIm === 0) continue;
			for (let k = column + 1; k < size; k++) {
				const from = column * size + k;
				const to = row * size + k;
				const uRe = re[from] as number;
				const uIm = im[from] as number;
				re[to] = (re[to] as number) - (fRe * uRe - fIm * uIm);
				im[to] = (im[to] as number) - (fRe * uIm + fIm * uRe);
			}
		}
	}
}

/** Exchanges two entries, by their places in the arrays. */
export function exchangeEntries({ re, im }: ComplexMatrix, one: number, other: number): void {
	const heldRe = re[one] as number;
	const heldIm = im[one] as number;
	re[one] = re[other] as number;
	im[one] = im[other] as number;
	re[other] = heldRe;
	im[other] = heldIm;
}

function exchangeRows(matrix: ComplexMatrix, order: Int32Array, one: number, other: number): void {
	const { size } = matrix;
	const held = order[one] as number;
	order[one] = order[other] as number;
	order[other] = held;
	for (let k = 0; k < size; k++) exchangeEntries(matrix, one * size + k, other * size + k);
}

/** Solves `matrix x = right` with factors of `factorInPlace`; `xRe` and `xIm` receive the solution and must not be the right side. */
export function solveFactored(
	{ size, re, im }: ComplexMatrix,
	order: Int32Array,
	rightRe: Float64Array,
	rightIm: Float64Array,
	xRe: Float64Array,
	xIm: Float64Array,
): void {
	for (let row = 0; row < size; row++) {
		const from = order[row] as number;
		let sumRe = rightRe[from] as number;
		let sumIm = rightIm[from] as number;
		for (let k = 0; k < row; k++) {
			const at = row * size + k;
			const fRe = re[at] as number;
			const fIm = im[at] as number;
			sumRe -= fRe * (xRe[k] as number) - fIm * (xIm[k] as number);
			sumIm -= fRe * (xIm[k] as number) + fIm * (xRe[k] as number);
		}
		xRe[row] = sumRe;
		xIm[row] = sumIm;
	}
	for (let row = size - 1; row >= 0; row--) {
		let sumRe = xRe[row] as number;
		let sumIm = xIm[row] as number;
		for (let k = row + 1; k < size; k++) {
			const at = row * size + k;
			const uRe = re[at] as number;
			const uIm = im[at] as number;
			sumRe -= uRe * (xRe[k] as number) - uIm * (xIm[k] as number);
			sumIm -= uRe * (xIm[k] as number) + uIm * (xRe[k] as number);
		}
		const pivot = row * size + row;
		const pRe = re[pivot] as number;
		const pIm = im[pivot] as number;
		const weight = pRe * pRe + pIm * pIm;
		xRe[row] = (sumRe * pRe + sumIm * pIm) / weight;
		xIm[row] = (sumIm * pRe - sumRe * pIm) / weight;
	}
}
