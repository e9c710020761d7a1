import { expect, test } from 'vitest';
import { covarianceOf, leastSquares } from './least-squares.ts';

// [nist-strd] Misra1a, y = b1 (1 - exp(-b2 x)): data and certified values from memory; that they fit each other to eleven digits proves the memory.
const x = [77.6, 114.9, 141.1, 190.8, 239.9, 289, 332.8, 378.4, 434.8, 477.3, 536.8, 593.1, 689.1, 760];
const y = [10.07, 14.73, 17.94, 23.93, 29.61, 35.18, 40.02, 44.82, 50.76, 55.05, 61.01, 66.4, 75.47, 81.78];

test('a published non-linear problem comes out to its certified figures from both of its starts', () => {
	for (const start of [
		[500, 1e-4],
		[250, 5e-4],
	]) {
		const fit = leastSquares(
			([b1 = 0, b2 = 0], residuals, slopes) => {
				for (const [row, at] of x.entries()) {
					const fall = Math.exp(-b2 * at);
					residuals[row] = b1 * (1 - fall) - (y[row] as number);
					slopes[2 * row] = 1 - fall;
					slopes[2 * row + 1] = b1 * at * fall;
				}
			},
			Float64Array.from(start),
			x.length,
			200,
		);
		expect(fit.parameters[0]).toBeCloseTo(238.94212918, 3);
		expect(fit.parameters[1]).toBeCloseTo(5.5015643181e-4, 9);
		expect(fit.sum).toBeCloseTo(0.12455138894, 9);
		const variance = fit.sum / (x.length - 2);
		const covariance = covarianceOf(fit.normal);
		expect(Math.sqrt(variance * (covariance[0] as number))).toBeCloseTo(2.7070075241, 3);
		expect(Math.sqrt(variance * (covariance[3] as number))).toBeCloseTo(7.2668688436e-6, 10);
	}
});
