/**
 * The step of 1, 2 or 5 times a power of ten that parts a range into about so many, and no more.
 * @param range above 0, in the unit of the step
 */
export function tickStep(range: number, about: number): number {
	const raw = range / about;
	const decade = 10 ** Math.floor(Math.log10(raw));
	return ([1, 2, 5].find((one) => one * decade >= raw) ?? 10) * decade;
}
