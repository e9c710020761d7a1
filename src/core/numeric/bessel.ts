/** Polynomial by Horner's rule, lowest power first. */
function polynomial(coefficients: readonly number[], x: number): number {
	let sum = 0;
	for (let k = coefficients.length - 1; k >= 0; k--) sum = sum * x + (coefficients[k] as number);
	return sum;
}

const zeroSmall = [1, 3.5156229, 3.0899424, 1.2067492, 0.2659732, 0.0360768, 0.0045813];
const zeroLarge = [
	0.39894228, 0.01328592, 0.00225319, -0.00157565, 0.00916281, -0.02057706, 0.02635537, -0.01647633, 0.00392377,
];
const oneSmall = [0.5, 0.87890594, 0.51498869, 0.15084934, 0.02658733, 0.00301532, 0.00032411];
const oneLarge = [
	0.39894228, -0.03988024, -0.00362018, 0.00163801, -0.01031555, 0.02282967, -0.02895312, 0.01787654, -0.00420059,
];

/**
 * Modified Bessel function I0(x) times e^-x, for x >= 0; error below 3e-7 of the value.
 * Source: polynomials 9.8.1 and 9.8.2 of the handbook of mathematical functions [abramowitz-stegun].
 */
export function besselI0Scaled(x: number): number {
	if (x < 3.75) return polynomial(zeroSmall, (x / 3.75) ** 2) * Math.exp(-x);
	return polynomial(zeroLarge, 3.75 / x) / Math.sqrt(x);
}

/**
 * Modified Bessel function I1(x) times e^-x, for x >= 0; error below 3e-7 of the value.
 * Source: polynomials 9.8.3 and 9.8.4 of the same handbook [abramowitz-stegun].
 */
export function besselI1Scaled(x: number): number {
	if (x < 3.75) return x * polynomial(oneSmall, (x / 3.75) ** 2) * Math.exp(-x);
	return polynomial(oneLarge, 3.75 / x) / Math.sqrt(x);
}

/** 2 I1(x)/x: how much a current that is exponential in its control grows at the fundamental when the control swings by x; 1 at 0. */
export function exponentialSwing(x: number): number {
	if (x < 3.75) return 2 * polynomial(oneSmall, (x / 3.75) ** 2);
	return (2 * besselI1Scaled(x) * Math.exp(x)) / x;
}
