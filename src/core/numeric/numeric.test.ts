import { expect, test } from 'vitest';
import { besselI0Scaled, besselI1Scaled, exponentialSwing } from './bessel.ts';
import { complexMatrix } from './complex-matrix.ts';
import { eigenvalues } from './eigenvalues.ts';

/** I_n(x) by its power series, the definition [abramowitz-stegun] 9.6.10. */
function besselSeries(order: 0 | 1, x: number): number {
	let term = (x / 2) ** order;
	let sum = term;
	for (let k = 1; k < 200; k++) {
		term *= (x * x) / 4 / (k * (k + order));
		sum += term;
	}
	return sum;
}

test.each([0, 0.1, 1, 3.74, 3.76, 8, 30])('Bessel polynomials agree with the power series at %s', (x) => {
	expect(Math.abs(besselI0Scaled(x) * Math.exp(x) - besselSeries(0, x))).toBeLessThanOrEqual(5e-7 * besselSeries(0, x));
	expect(Math.abs(besselI1Scaled(x) * Math.exp(x) - besselSeries(1, x))).toBeLessThanOrEqual(5e-7 * besselSeries(1, x));
});

test('a swing of an exponential control raises the fundamental by 2 I1(x)/x', () => {
	expect(exponentialSwing(0)).toBe(1);
	expect(exponentialSwing(2)).toBeCloseTo((2 * besselSeries(1, 2)) / 2, 6);
});

test('eigenvalues of a companion matrix are the roots of its polynomial', () => {
	// (z - 1)(z - 2)(z - 3i)(z + 4) = z^4 + (1 - 3i) z^3 + (-10 - 3i) z^2 + (8 + 30i) z - 24i
	const matrix = complexMatrix(4);
	const coefficients: [number, number][] = [
		[0, -24],
		[8, 30],
		[-10, -3],
		[1, -3],
	];
	for (const [row, [re, im]] of coefficients.entries()) {
		matrix.re[row * 4 + 3] = -re;
		matrix.im[row * 4 + 3] = -im;
		if (row > 0) matrix.re[row * 4 + row - 1] = 1;
	}
	const { re, im } = eigenvalues(matrix);
	const found = Array.from(re, (real, k) =>
		`${real.toFixed(9)} ${(im[k] as number).toFixed(9)}`.replaceAll('-0.000000000', '0.000000000'),
	);
	expect(found.sort()).toEqual(
		[
			'1.000000000 0.000000000',
			'2.000000000 0.000000000',
			'0.000000000 3.000000000',
			'-4.000000000 0.000000000',
		].sort(),
	);
});
