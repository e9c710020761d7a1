/** A complex number. */
export interface Complex {
	readonly re: number;
	readonly im: number;
}

/** The complex number of two parts. */
export const complex = (re: number, im: number): Complex => ({ re, im });
/** Sum. */
export const plus = (a: Complex, b: Complex): Complex => complex(a.re + b.re, a.im + b.im);
/** Difference. */
export const minus = (a: Complex, b: Complex): Complex => complex(a.re - b.re, a.im - b.im);
/** Product. */
export const times = (a: Complex, b: Complex): Complex => complex(a.re * b.re - a.im * b.im, a.re * b.im + a.im * b.re);
/** Product with a real number. */
export const scaled = (a: Complex, factor: number): Complex => complex(a.re * factor, a.im * factor);
/** Conjugate. */
export const conjugate = (a: Complex): Complex => complex(a.re, -a.im);
/** Absolute value. */
export const size = (a: Complex): number => Math.hypot(a.re, a.im);

/** Quotient of two complex numbers. */
export function over(a: Complex, b: Complex): Complex {
	const weight = b.re * b.re + b.im * b.im;
	return complex((a.re * b.re + a.im * b.im) / weight, (a.im * b.re - a.re * b.im) / weight);
}
