/**
 * Decibels of a ratio of amplitudes; -Infinity for 0.
 * @example decibels(10) // => 20
 */
export function decibels(amplitudeRatio: number): number {
	return 20 * Math.log10(amplitudeRatio);
}

/**
 * Ratio of amplitudes of so many decibels.
 * @example amplitudeRatio(20) // => 10
 */
export function amplitudeRatio(levelDb: number): number {
	return 10 ** (levelDb / 20);
}
