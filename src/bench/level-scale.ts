import { inputOf, isStepHeld } from '#core/estimate/avc-law.ts';
import type { Estimate } from '#core/numeric/estimate.ts';
import type { LevelReading } from '#record/reading.ts';
import type { FittedLaw } from './avc-laws.ts';
import type { KeptLevel } from './kept-level.ts';
import { difference } from './reference.ts';

/** Readings turned back into the input that they came from, AVC and detector taken out by a law of the set. */
export class InputScale {
	readonly law: FittedLaw;
	readonly #known = new WeakMap<LevelReading, LevelReading>();

	constructor(law: FittedLaw) {
		this.law = law;
	}

	/**
	 * The reading with its level at the input, decibels of one open-circuit volt; its uncertainty is what two readings near each other differ by.
	 * `null` for another meter's, and where the law does not reach or is flat.
	 */
	reading(read: LevelReading): LevelReading | null {
		const known = this.#known.get(read);
		if (known) return known;
		const { law, instrument, reference } = this.law;
		if (read.levelDb === null || read.instrument !== instrument || read.reference !== reference) return null;
		const input = inputOf(law, read.levelDb);
		if (input === null) return null;
		const turned = { ...read, levelDb: { value: input.value, uncertainty: input.scatterDb } };
		this.#known.set(read, turned);
		return turned;
	}

	/** Kept levels at the input: all of those that have a level, or `null`: levels of two scales are never put together. */
	levels(kept: readonly KeptLevel[]): readonly KeptLevel[] | null {
		const turned: KeptLevel[] = [];
		for (const level of kept) {
			const reading = level.reading.levelDb === null ? level.reading : this.reading(level.reading);
			if (reading === null) return null;
			turned.push({ ...level, reading });
		}
		return turned;
	}
}

/** A step of 6 dB at the generator, as a law has it at the input. */
export interface LawCheck {
	readonly inputDb: Estimate;
	readonly verdict: 'holds' | 'holds no more' | 'uncertain';
}

/** A step that is known no better than this says nothing about a law, decibels of one standard deviation (chosen). */
const mostUncertainDb = 0.4;

/** Whether a law still turns a step of 6 dB at the generator into 6 dB; `null` where it does not reach. */
export function lawCheck({ law }: FittedLaw, beforeDb: Estimate, afterDb: Estimate): LawCheck | null {
	const before = inputOf(law, beforeDb);
	const after = inputOf(law, afterDb);
	if (!before || !after) return null;
	const step = difference(before, after);
	const inputDb = { value: Math.abs(step.value), uncertainty: step.uncertainty };
	if (!isStepHeld(inputDb)) return { inputDb, verdict: 'holds no more' };
	return { inputDb, verdict: (step.uncertainty ?? 0) > mostUncertainDb ? 'uncertain' : 'holds' };
}
