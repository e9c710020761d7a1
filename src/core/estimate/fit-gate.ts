/** Chi-squared per degree of freedom above which a fit is refused, when it is no accident (chosen; a 100 c scatter of the generator gives 1.9 with a 0.1 dB meter). */
const mostPerDegree = 1.5;

/**
 * Whether a fit leaves more than its readings' scatter: chi-squared per degree above 1.5 and less likely by chance than one in five hundred.
 * The tail of chi-squared by the cube root that is nearly normal (Wilson and Hilferty, from memory).
 * @example isRefused(1.9, 52) // => true
 */
export function isRefused(chiSquaredPerDegree: number, degrees: number): boolean {
	const share = 2 / (9 * degrees);
	const deviates = (Math.cbrt(chiSquaredPerDegree) - (1 - share)) / Math.sqrt(share);
	return chiSquaredPerDegree > mostPerDegree && deviates > 2.88;
}
