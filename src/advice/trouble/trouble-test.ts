import type { QuantityKind } from '#record/quantity.ts';
import type { CauseId } from './causes.ts';

/** What a test asks of the person: `none` keeps hands off the inside of the set; `unplugged` puts a hand into the dead set; `clipped` joins a lead to the dead set and reads it live, hands off. */
export type TestDanger = 'none' | 'unplugged' | 'clipped';

/** One answer that a test can have. */
export interface TestOutcome {
	readonly id: string;
	/** As the person says it. */
	readonly words: string;
}

/** How often each outcome is met under some causes, in the order of the outcomes, adding up to 1. */
export interface OutcomeShares {
	readonly causes: readonly CauseId[];
	readonly shares: readonly number[];
}

/** A test that settles something: what to do, what it costs, and what each answer says. */
export interface TroubleTest {
	/** What to do, in one sentence. */
	readonly words: string;
	/** How to do it and what to mind. */
	readonly how: string;
	/** Time that it takes at a bench, seconds. */
	readonly takesS: number;
	readonly danger: TestDanger;
	readonly outcomes: readonly TestOutcome[];
	/** Where a meter answers: what is typed, and the bounds between the outcomes in SI units, rising. */
	readonly typed?: { readonly quantity: QuantityKind; readonly asks: string; readonly bounds: readonly number[] };
	/** The sound of the set answers it by itself. */
	readonly isHeard?: true;
	/** Shares under every cause that is not named below. */
	readonly otherwise: readonly number[];
	readonly rows: readonly OutcomeShares[];
	/** Where the direction of the shares is from; the shares themselves are chosen. */
	readonly basis: 'physics of the circuit' | 'simulated set' | 'common practice';
}
