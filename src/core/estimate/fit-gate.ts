/**
 * How far the readings of a real strip are off a model that is as good as any, however well they are read: root mean square, decibels (chosen).
 * One curve alone is a product of resonances whatever the strip: what it leaves is gain that is not the same at every reading. All curves of a strip together,
 * from nudge to nudge, are held to one set of windings as well, and loads that are no loss of the windings are not in them: more is left (by trial on a
 * simulated set: with 0.02 dB most strips are refused, with 0.05 dB one in eight after all settings).
 */
export const offModelDb = { resonances: 0.05, strip: 0.08 } as const;

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
