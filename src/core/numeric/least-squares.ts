import { symmetricSolve } from './symmetric-solve.ts';

/**
 * Residuals of a model, each divided by its standard uncertainty.
 * @param residuals length m, to be filled
 * @param slopes derivatives of the residuals by the parameters, m rows of n, to be filled
 */
export type ResidualModel = (parameters: Float64Array, residuals: Float64Array, slopes: Float64Array) => void;

/** Where a least-squares fit ended. */
export interface LeastSquaresFit {
	readonly parameters: Float64Array;
	/** Sum of the squared residuals. */
	readonly sum: number;
	/** Slopes' product with themselves at the end, n rows of n. */
	readonly normal: Float64Array;
}

function sumOfSquares(values: Float64Array): number {
	let sum = 0;
	for (const value of values) sum += value * value;
	return sum;
}

function normalOf(
	slopes: Float64Array,
	residuals: Float64Array,
	size: number,
	normal: Float64Array,
	right: Float64Array,
): void {
	normal.fill(0);
	right.fill(0);
	for (let row = 0; row < residuals.length; row++) {
		const at = row * size;
		const residual = residuals[row] as number;
		for (let one = 0; one < size; one++) {
			const slope = slopes[at + one] as number;
			if (slope === 0) continue;
			right[one] = (right[one] as number) - slope * residual;
			for (let other = 0; other <= one; other++) {
				const place = one * size + other;
				normal[place] = (normal[place] as number) + slope * (slopes[at + other] as number);
			}
		}
	}
	for (let one = 0; one < size; one++)
		for (let other = 0; other < one; other++) normal[other * size + one] = normal[one * size + other] as number;
}

/** A step of the damped normal equations, `null` when they cannot be solved even so. */
function dampedStep(normal: Float64Array, right: Float64Array, damping: number): Float64Array | null {
	const size = right.length;
	const damped = Float64Array.from(normal);
	for (let one = 0; one < size; one++) {
		const place = one * size + one;
		damped[place] = (normal[place] as number) * (1 + damping) + 1e-12;
	}
	try {
		return symmetricSolve(damped, right);
	} catch {
		return null;
	}
}

/**
 * Parameters at a minimum of the sum of squared residuals near the start, by Levenberg's and Marquardt's damped steps.
 * It ends where a step gains less than a 1e-7 part, or after so many steps.
 * @param start length n
 * @param count number m of residuals
 */
export function leastSquares(model: ResidualModel, start: Float64Array, count: number, steps = 60): LeastSquaresFit {
	const size = start.length;
	let parameters = Float64Array.from(start);
	let slopes = new Float64Array(count * size);
	let triedSlopes = new Float64Array(count * size);
	const residuals = new Float64Array(count);
	const normal = new Float64Array(size * size);
	const right = new Float64Array(size);
	model(parameters, residuals, slopes);
	let sum = sumOfSquares(residuals);
	normalOf(slopes, residuals, size, normal, right);
	let damping = 1e-2;
	for (let step = 0; step < steps && damping < 1e10; step++) {
		const move = dampedStep(normal, right, damping);
		if (move === null) {
			damping = Math.max(damping * 10, 1e-6);
			continue;
		}
		const next = parameters.map((value, place) => value + (move[place] as number));
		model(next, residuals, triedSlopes);
		const nextSum = sumOfSquares(residuals);
		if (!(nextSum < sum)) {
			damping *= 6;
			continue;
		}
		const gain = sum - nextSum;
		parameters = next;
		sum = nextSum;
		[slopes, triedSlopes] = [triedSlopes, slopes];
		damping = Math.max(damping / 8, 1e-9);
		normalOf(slopes, residuals, size, normal, right);
		if (gain < 1e-7 * sum + 1e-9) break;
	}
	return { parameters, sum, normal };
}

/**
 * Covariance of fitted parameters, n rows of n: the inverse of the normal matrix, scaled so that it can be had near a degenerate minimum.
 * @param normal n rows of n
 * @throws when a direction is not fixed by the readings at all
 */
export function covarianceOf(normal: Float64Array): Float64Array {
	const size = Math.round(Math.sqrt(normal.length));
	const scale = Float64Array.from(
		{ length: size },
		(_, place) => 1 / Math.sqrt(normal[place * size + place] as number),
	);
	const scaled = normal.map(
		(value, place) => value * (scale[Math.floor(place / size)] as number) * (scale[place % size] as number),
	);
	for (let place = 0; place < size; place++) scaled[place * size + place] = 1 + 1e-10;
	const inverse = new Float64Array(size * size);
	for (let column = 0; column < size; column++) {
		const unit = new Float64Array(size);
		unit[column] = 1;
		const solved = symmetricSolve(scaled, unit);
		for (let row = 0; row < size; row++)
			inverse[row * size + column] = (solved[row] as number) * (scale[row] as number) * (scale[column] as number);
	}
	return inverse;
}
