import type { CauseId } from './causes.ts';

/** Under which heading a trouble is looked for. */
export type TroubleArea =
	| 'Peaking'
	| 'Sound'
	| 'Dial and oscillator'
	| 'Reception'
	| 'Instruments'
	| 'Cans and kinds of sets';

/** What a person says is the matter, and what it can come down to. */
export interface Trouble {
	/** As it is said. */
	readonly words: string;
	readonly area: TroubleArea;
	/** Other words under which it is found. */
	readonly alsoSaid: readonly string[];
	/** How often each cause lies behind it; relative, chosen by the order in which the trade's texts name them. */
	readonly causes: Readonly<Partial<Record<CauseId, number>>>;
	/** Where the list of causes is from: keys of docs/sources.md. */
	readonly sources: readonly string[];
}
