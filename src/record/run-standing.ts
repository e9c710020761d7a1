/** What a list of runs knows of each. */
export interface ListedRun {
	/** How its last entry closed it; `null` for one that was never put down. */
	readonly ended: 'done' | 'left' | null;
	/** A lesson, or free practice. */
	readonly isPractice: boolean;
}

/**
 * What a person does with a run: look back on it, go on with it, or practise.
 * @example runUse({ ended: 'left', isPractice: false }) // => 'to go on with'
 */
export function runUse({ ended, isPractice }: ListedRun): 'practice' | 'finished' | 'to go on with' {
	if (isPractice) return 'practice';
	return ended === 'done' ? 'finished' : 'to go on with';
}

/**
 * How a run stands, for a list: whether it is practice, and how it was put down.
 * @example runStanding({ ended: 'done', isPractice: true }) // => 'practice, finished'
 */
export function runStanding({ ended, isPractice }: ListedRun): string {
	const standing = ended === 'done' ? 'finished' : ended === 'left' ? 'left' : 'not put down';
	return isPractice ? `practice, ${standing}` : standing;
}
