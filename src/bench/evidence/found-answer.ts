import type { TestAnswer } from '#advice/trouble/ranking.ts';

/** Where in the work an answer was found. */
export type FoundIn = 'triage' | 'adjusters' | 'IF curve' | 'dial' | 'standard tests' | 'listening' | 'troubles';

/** An answer to a test of trouble that a run already holds. */
export interface FoundAnswer extends TestAnswer {
	readonly foundIn: FoundIn;
}
