/**
 * The least of 1, 2 and 5 times a power of ten that is not below a value, but for its last digits.
 * @param least above 0, in any unit
 * @example oneTwoFive(0.03) // => 0.05
 */
export function oneTwoFive(least: number): number {
	const decade = 10 ** Math.floor(Math.log10(least));
	return ([1, 2, 5].find((step) => step * decade >= least * (1 - 1e-9)) ?? 10) * decade;
}
