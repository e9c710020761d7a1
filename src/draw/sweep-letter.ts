/**
 * The letters of the sweep of this place, counted from 0: A to Z, then AA, AB and so on, as columns of a table are named.
 * @example sweepLetter(26) // => 'AA'
 */
export function sweepLetter(place: number): string {
	const before = Math.floor(place / 26) - 1;
	return `${before < 0 ? '' : sweepLetter(before)}${String.fromCharCode(65 + (place % 26))}`;
}
