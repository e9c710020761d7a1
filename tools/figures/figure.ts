/** One figure of the bench: what it must reach and how it is measured. It is reported, never a test. */
export interface Figure {
	readonly name: string;
	readonly target: string;
	/** What it hangs on: `clock`, the machine and what else it does; `count`, the code and the seeds alone. */
	readonly by: 'clock' | 'count';
	/** How it is measured, in one line, with the number of seeds or runs. */
	readonly how: string;
	measure(): Promise<Reached>;
}

/** What a figure reached. */
export interface Reached {
	/** Printed with its unit. */
	readonly reached: string;
	/** How much of what the target allows was used, the worst of its parts: 1 or less meets it. `null` where none is set. */
	readonly used: number | null;
	/** The same as a ratio to ngspice or to the Cramer-Rao bound, where that says something. */
	readonly ratio?: string;
}

/** How much of a limit is used by what must not be more than it. */
export const atMost = (reached: number, limit: number): number =>
	limit === 0 ? (reached === 0 ? 0 : Number.POSITIVE_INFINITY) : reached / limit;

/** How much is used by what must not be less than a limit. */
export const atLeast = (reached: number, limit: number): number => atMost(limit, reached);

/** The worst of several parts. */
export const worst = (...used: readonly number[]): number => Math.max(...used);
