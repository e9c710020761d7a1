/** Decibels of a ratio of volts. */
export const ratioDb = (ratio: number): number => 20 * Math.log10(ratio);

/** What inputs give that are set by the generator's marks. */
export interface MarkedInputs {
	/** What a mark gives, volts. */
	readonly givenV: (markedV: number) => number;
	/** What so many times the marked reference is, decibels. */
	readonly timesDb: (times: number) => number;
}

/** A generator that gives what it is marked with. */
export const asMarked: MarkedInputs = { givenV: (markedV) => markedV, timesDb: ratioDb };
