/** One point of an IF curve: the generator's frequency and the level, relative to anything that stays the same through the sweep. */
export interface SweepPoint {
	readonly frequencyHz: number;
	readonly levelDb: number;
	/** Standard uncertainty of the level as far as it is known, such as half the last digit; `null` when nothing is known. */
	readonly uncertaintyDb: number | null;
}

/** A measured IF curve: at least five points, ascending in frequency; the same frequency may stand more than once. */
export interface Sweep {
	readonly name: string;
	readonly source: 'table' | 'Touchstone' | 'by hand';
	readonly points: readonly SweepPoint[];
}

/** Nothing beyond these is an IF curve; a slip of the exponent is. Highest frequency, hertz, and furthest level from nought, decibels (chosen). */
export const sweepLimits = { mostHz: 1e9, mostDb: 1000 } as const;
