import { stepWithinDb } from '#core/estimate/avc-law.ts';
import type { Estimate } from '#core/numeric/estimate.ts';
import { meanOf, scatterDb } from './steadiness.ts';

/** What a step of 6 dB at the generator did to the reading. */
export interface LevelStep {
	readonly kind: 'linear' | 'too strong' | 'more than 6 dB' | 'nothing changed' | 'uncertain';
	/** Decibels between the two readings, without their sign. */
	readonly stepDb: Estimate;
}

/** A step of 6 dB that reads so much is passed through as it is. */
const leastStepDb = 6 - stepWithinDb;
const mostStepDb = 6 + stepWithinDb;
/** Less than this is no step at all: nothing was turned, or the set levels everything. */
const noStepDb = 0.3;
const sigmas = 2.5;

/**
 * Whether the set passes a 6 dB step of the generator on: less means that AVC or an overloaded stage levels it, so that peaks look flat;
 * more, that the signal is so weak that the detector works at its bend, or that the attenuator is not what it says.
 * @param beforeDb readings before the step
 * @param afterDb readings after it
 * @param uncertaintyDb standard uncertainty that the meter states for one reading
 */
export function levelStep(beforeDb: readonly number[], afterDb: readonly number[], uncertaintyDb: number): LevelStep {
	const sigmaDb = Math.max(uncertaintyDb, scatterDb(beforeDb), scatterDb(afterDb));
	const stepSigmaDb = sigmaDb * Math.sqrt(1 / beforeDb.length + 1 / afterDb.length);
	const value = Math.abs(meanOf(afterDb) - meanOf(beforeDb));
	const stepDb = { value, uncertainty: stepSigmaDb };
	const reachDb = sigmas * stepSigmaDb;
	if (value < noStepDb) return { kind: 'nothing changed', stepDb };
	if (value + reachDb < leastStepDb) return { kind: 'too strong', stepDb };
	if (value - reachDb > mostStepDb) return { kind: 'more than 6 dB', stepDb };
	// A meter that cannot tell 5.7 dB from 6 dB proves nothing.
	if (reachDb > stepWithinDb) return { kind: 'uncertain', stepDb };
	return { kind: value < leastStepDb ? 'too strong' : value > mostStepDb ? 'more than 6 dB' : 'linear', stepDb };
}

/** The outcome as a sentence with what to do next. */
export function levelStepWords({ kind, stepDb }: LevelStep): string {
	const said = `The step reads ${stepDb.value.toFixed(stepDb.uncertainty !== null && stepDb.uncertainty < 0.05 ? 2 : 1)} dB.`;
	switch (kind) {
		case 'linear':
			return `${said} The set passes it on as it is: leave the generator as it stands now.`;
		case 'too strong':
			return `${said} The signal is too strong, AVC or an overloaded stage levels it: make it weaker and try again.`;
		case 'more than 6 dB':
			return `${said} More than was given: the signal is too weak for the detector, or the attenuator is not what it says.`;
		case 'nothing changed':
			return 'Nothing changed: was the generator turned down by 6 dB, and is its lead connected? If it was, AVC levels the signal altogether: make it much weaker.';
		case 'uncertain':
			return `${said} These readings cannot tell 5.7 dB from 6 dB: read finer, or listen longer.`;
	}
}
