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
