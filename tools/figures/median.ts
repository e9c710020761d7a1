/** The middle one of the values, the upper of two; no number where there is none. */
export const median = (values: readonly number[]): number =>
	[...values].sort((a, b) => a - b)[values.length >> 1] ?? Number.NaN;
