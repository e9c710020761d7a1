/** What at the set only a hand can do. Each act is fulfilled when the hand says so; the generator's output is off meanwhile, unless the level is wanted for it. */
export interface BenchHand {
	/** Sets the pointer on a mark; `false`: left out. */
	setPointer(dialHz: number): Promise<boolean>;
	/** Sets the volume control to an end of its way; `false`: left out. */
	setVolume(end: 'full up' | 'down'): Promise<boolean>;
	/**
	 * Turns the volume down until the meter shows so much; `false`: left out.
	 * @param readV what the meter shows now, volts; `null`: nothing
	 */
	bringOutput(wantedV: number, readV: () => Promise<number | null>): Promise<boolean>;
	/** Turns an adjuster by an eighth at most; gives the eighths, clockwise positive, or `null`: left as it is. */
	nudge(adjuster: { readonly id: string; readonly name: string }): Promise<number | null>;
}
