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
 * How far chi-squared lies above what scatter alone gives, in standard deviations of a normal quantity: 2.33 is one chance in a hundred, 2.88 one in five hundred.
 * By the cube root that is nearly normal (Wilson and Hilferty, from memory); within 0.01 of the tables from one degree of freedom on.
 * @example chiSquaredDeviates(6.635, 1).toFixed(2) // => '2.34'
 */
export function chiSquaredDeviates(chiSquaredPerDegree: number, degrees: number): number {
	const share = 2 / (9 * degrees);
	return (Math.cbrt(chiSquaredPerDegree) - (1 - share)) / Math.sqrt(share);
}

/**
 * Whether a fit leaves more than its readings' scatter: chi-squared per degree above 1.5 and less likely by chance than one in five hundred.
 * @example isRefused(1.9, 52) // => true
 */
export function isRefused(chiSquaredPerDegree: number, degrees: number): boolean {
	return chiSquaredPerDegree > mostPerDegree && chiSquaredDeviates(chiSquaredPerDegree, degrees) > 2.88;
}
