import type { Generated } from 'kysely';

/** Tables of the journal and the shelf. A card is never overwritten: each change is a new row of `card`. */
export interface Tables {
	readonly card: {
		readonly number: Generated<number>;
		readonly set_id: string;
		readonly changed_at_ms: number;
		readonly card: string;
	};
	readonly entry: {
		readonly id: string;
		readonly run: string;
		readonly place: number;
		readonly at_ms: number;
		readonly set_id: string | null;
		/** What a level was read for; empty for all else. */
		readonly reading: string | null;
		readonly what: string;
	};
	/** The newest card of each set, by the words that it is found by. */
	readonly standing_card: {
		readonly set_id: string;
		readonly number: number;
		readonly words: string;
	};
	readonly photo: {
		readonly id: string;
		readonly set_id: string;
		/** What is said of it, and its size, as JSON. */
		readonly about: string;
	};
	readonly picture: {
		readonly photo: string;
		readonly bytes: Uint8Array;
	};
	/** Generator and meter that the program drives; `about` is JSON. */
	readonly instrument: {
		readonly which: string;
		readonly about: string;
	};
}
