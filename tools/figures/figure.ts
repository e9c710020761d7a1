/** One figure of the bench: what it must reach and how it is measured. It is reported, never a test. */
export interface Figure {
	readonly name: string;
	readonly target: string;
	/** How it is measured, in one line, with the number of seeds or runs. */
	readonly how: string;
	/** The figure reached, printed with its unit, and whether it meets the target; `null` where none is set. */
	measure(): Promise<{ readonly reached: string; readonly met: boolean | null }>;
}
