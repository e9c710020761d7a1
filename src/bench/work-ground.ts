import type { BenchHand } from './bench-hand.ts';
import type { SweepGround } from './sweep-hand.ts';

/** What work with generator, meter and a hand at the set needs. */
export interface WorkGround extends SweepGround {
	readonly hand: BenchHand;
}
