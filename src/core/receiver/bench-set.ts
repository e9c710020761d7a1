import type { SetDesign } from './design.ts';
import { markTuning } from './factory.ts';
import { type Fault, withFaults } from './faults.ts';
import { type SetValues, setValues } from './values.ts';

/** A set on the bench: its design, what ails it and where its adjusters and pointer stand. */
export interface BenchSet {
	readonly design: SetDesign;
	readonly faults: readonly Fault[];
	readonly turns: Readonly<Record<string, number>>;
	/** How far the pointer has slipped along the scale, metres, positive toward the high end. */
	readonly pointerSlipM: number;
}

/** The set's values with the gang at a place, volume full up. */
export function valuesAt(set: BenchSet, tuning: number, volume = 1): SetValues {
	const { design, turns, faults } = set;
	return withFaults(setValues(design, { turns, tuning, volume }), faults);
}

/** The gang's place when the pointer, slipped as it is, stands on a mark. */
export function tuningAtMark({ design, pointerSlipM }: BenchSet, dialHz: number): number {
	return markTuning(design, dialHz) - pointerSlipM / design.scaleTravelM;
}
