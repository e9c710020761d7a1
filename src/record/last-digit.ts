/**
 * One unit of the last digit of a number as it was written, in the number's own unit.
 * @example lastDigit('2.40') // => 0.01
 */
export function lastDigit(digits: string): number {
	const [, decimals = '', exponent = '0'] = /^-?\d*(?:\.(\d*))?(?:[eE]([+-]?\d+))?$/.exec(digits) ?? [];
	return 10 ** (Number(exponent) - decimals.length);
}

/** Standard uncertainty of a value that may lie anywhere within one unit of its last digit: half of it over the root of three. */
export const withinLastDigit = 0.5 / Math.sqrt(3);

/**
 * Standard uncertainty of a value, in its own unit, that comes of nothing but the digits that were written.
 * @param digits the number as written, in whatever unit; 0 tells nothing of the unit and gives 0
 * @param value what it came to
 */
export function digitUncertainty(digits: string, value: number): number {
	const written = Number(digits);
	return written === 0 ? 0 : Math.abs((lastDigit(digits) / written) * value) * withinLastDigit;
}

/** The same of a value that was typed with its unit, such as `1,010 kc`: its first number counts. */
export function typedUncertainty(words: string, value: number): number {
	return digitUncertainty(/[\d.]+/.exec(words.replaceAll(',', ''))?.[0] ?? '1', value);
}
