import type { PartName } from '../parts/part-request.ts';

/** Something that may lie behind a trouble. */
export interface Cause {
	/** What is the matter, as a sentence without its full stop. */
	readonly words: string;
	/** What it would show. */
	readonly shows: string;
	/** What to do about it, in this order. */
	readonly remedy: readonly string[];
	/** Which part's value is wanted next. */
	readonly part?: PartName;
	/** Why this is the place to stop and to hand the set to a licensed person. */
	readonly handOver?: string;
	/** No part is at fault: the work on the sheet goes on. */
	readonly isSound?: true;
}
