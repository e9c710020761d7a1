import { type ComplexMatrix, exchangeEntries } from './complex-matrix.ts';

/**
 * Eigenvalues of a complex matrix, in no order: Hessenberg form by elimination, then QR steps with Wilkinson's shift.
 * The matrix is destroyed. Meant for a dozen rows.
 * @returns real and imaginary parts, length `size`
 * @throws when a value does not settle within 60 steps
 */
export function eigenvalues(matrix: ComplexMatrix): { readonly re: Float64Array; readonly im: Float64Array } {
	toHessenberg(matrix);
	const { size, re, im } = matrix;
	const outRe = new Float64Array(size);
	const outIm = new Float64Array(size);
	const magnitude = (at: number): number => Math.abs(re[at] as number) + Math.abs(im[at] as number);
	let high = size - 1;
	let steps = 0;
	while (high >= 0) {
		let low = high;
		while (low > 0) {
			const near = magnitude(low * size + low) + magnitude((low - 1) * size + low - 1);
			const below = low * size + low - 1;
			if (magnitude(below) <= 2 ** -52 * near) {
				re[below] = 0;
				im[below] = 0;
				break;
			}
			low--;
		}
		if (low === high) {
			outRe[high] = re[high * size + high] as number;
			outIm[high] = im[high * size + high] as number;
			high--;
			steps = 0;
			continue;
		}
		if (++steps > 60) throw new Error('the natural frequencies of the circuit could not be found');
		qrStep(matrix, low, high, steps % 20 === 0);
	}
	return { re: outRe, im: outIm };
}

function toHessenberg(matrix: ComplexMatrix): void {
	const { size, re, im } = matrix;
	for (let m = 1; m < size - 1; m++) {
		let best = m;
		let largest = 0;
		for (let row = m; row < size; row++) {
			const at = row * size + m - 1;
			const weight = Math.abs(re[at] as number) + Math.abs(im[at] as number);
			if (weight > largest) {
				largest = weight;
				best = row;
			}
		}
		if (largest === 0) continue;
		if (best !== m) {
			for (let k = m - 1; k < size; k++) exchangeEntries(matrix, best * size + k, m * size + k);
			for (let k = 0; k < size; k++) exchangeEntries(matrix, k * size + best, k * size + m);
		}
		const pRe = re[m * size + m - 1] as number;
		const pIm = im[m * size + m - 1] as number;
		const weight = pRe * pRe + pIm * pIm;
		for (let row = m + 1; row < size; row++) {
			const at = row * size + m - 1;
			const aRe = re[at] as number;
			const aIm = im[at] as number;
			if (aRe === 0 && aIm === 0) continue;
			const fRe = (aRe * pRe + aIm * pIm) / weight;
			const fIm = (aIm * pRe - aRe * pIm) / weight;
			re[at] = 0;
			im[at] = 0;
			for (let k = m; k < size; k++) addTimes(re, im, row * size + k, m * size + k, -fRe, -fIm);
			for (let k = 0; k < size; k++) addTimes(re, im, k * size + m, k * size + row, fRe, fIm);
		}
	}
}

function addTimes(re: Float64Array, im: Float64Array, to: number, from: number, fRe: number, fIm: number): void {
	const aRe = re[from] as number;
	const aIm = im[from] as number;
	re[to] = (re[to] as number) + aRe * fRe - aIm * fIm;
	im[to] = (im[to] as number) + aRe * fIm + aIm * fRe;
}

/** Square root with the real part positive. */
function root(re: number, im: number): [number, number] {
	const length = Math.hypot(re, im);
	const outRe = Math.sqrt((length + Math.abs(re)) / 2);
	if (outRe === 0) return [0, 0];
	return re >= 0 ? [outRe, im / (2 * outRe)] : [Math.abs(im) / (2 * outRe), im >= 0 ? outRe : -outRe];
}

/** The eigenvalue of the last 2 x 2 block that is nearer to its last entry. */
function shiftOf({ size, re, im }: ComplexMatrix, high: number): [number, number] {
	const at = (row: number, column: number): [number, number] => [
		re[row * size + column] as number,
		im[row * size + column] as number,
	];
	const [aRe, aIm] = at(high - 1, high - 1);
	const [bRe, bIm] = at(high - 1, high);
	const [cRe, cIm] = at(high, high - 1);
	const [dRe, dIm] = at(high, high);
	const hRe = (aRe - dRe) / 2;
	const hIm = (aIm - dIm) / 2;
	const [rRe, rIm] = root(hRe * hRe - hIm * hIm + bRe * cRe - bIm * cIm, 2 * hRe * hIm + bRe * cIm + bIm * cRe);
	const sign = hRe * rRe + hIm * rIm > 0 ? -1 : 1;
	return [dRe + hRe + sign * rRe, dIm + hIm + sign * rIm];
}

/** One QR step on rows `low` to `high`, by Givens' rotations. */
function qrStep(matrix: ComplexMatrix, low: number, high: number, isExceptional: boolean): void {
	const { size, re, im } = matrix;
	let [sRe, sIm] = shiftOf(matrix, high);
	if (isExceptional) {
		sRe = Math.abs(re[high * size + high - 1] as number) + (re[high * size + high] as number);
		sIm = 0;
	}
	for (let k = low; k <= high; k++) {
		re[k * size + k] = (re[k * size + k] as number) - sRe;
		im[k * size + k] = (im[k * size + k] as number) - sIm;
	}
	const cosines = new Float64Array(high);
	const sineRe = new Float64Array(high);
	const sineIm = new Float64Array(high);
	for (let k = low; k < high; k++) {
		const aRe = re[k * size + k] as number;
		const aIm = im[k * size + k] as number;
		const bRe = re[(k + 1) * size + k] as number;
		const bIm = im[(k + 1) * size + k] as number;
		const aLength = Math.hypot(aRe, aIm);
		const length = Math.hypot(aLength, bRe, bIm);
		// c real; s = conj(a)/|a| * b / length, so that [c conj(s); -s c] puts zero below the diagonal.
		const c = length === 0 ? 1 : aLength / length;
		const uRe = aLength === 0 ? 1 : aRe / aLength;
		const uIm = aLength === 0 ? 0 : aIm / aLength;
		const tRe = length === 0 ? 0 : (uRe * bRe + uIm * bIm) / length;
		const tIm = length === 0 ? 0 : (uRe * bIm - uIm * bRe) / length;
		cosines[k] = c;
		sineRe[k] = tRe;
		sineIm[k] = tIm;
		for (let column = k; column <= high; column++)
			rotate(re, im, k * size + column, (k + 1) * size + column, c, tRe, tIm);
	}
	for (let k = low; k < high; k++) {
		const c = cosines[k] as number;
		const tRe = sineRe[k] as number;
		const tIm = sineIm[k] as number;
		for (let row = low; row <= Math.min(k + 1, high); row++) {
			rotate(re, im, row * size + k, row * size + k + 1, c, tRe, -tIm);
		}
	}
	for (let k = low; k <= high; k++) {
		re[k * size + k] = (re[k * size + k] as number) + sRe;
		im[k * size + k] = (im[k * size + k] as number) + sIm;
	}
}

/** x <- c x + conj(s) y, y <- -s x + c y. */
function rotate(re: Float64Array, im: Float64Array, x: number, y: number, c: number, sRe: number, sIm: number): void {
	const xRe = re[x] as number;
	const xIm = im[x] as number;
	const yRe = re[y] as number;
	const yIm = im[y] as number;
	re[x] = c * xRe + sRe * yRe + sIm * yIm;
	im[x] = c * xIm + sRe * yIm - sIm * yRe;
	re[y] = c * yRe - (sRe * xRe - sIm * xIm);
	im[y] = c * yIm - (sRe * xIm + sIm * xRe);
}
