import type { Language } from '#record/language.ts';
import type { SetFacts } from '#record/set-facts.ts';
import type { TestGear, TestMoment, TestReading } from '#record/test-reading.ts';
import { type GeneratorsKnown, noGenerators } from '../generators-known.ts';
import type { MeasuredGenerator } from '../marked-level.ts';
import { sensitivityAsk } from './asks.ts';
import { type Difference, differences } from './difference.ts';
import { testFindings } from './findings.ts';
import { withGeneratorTruth } from './generator-truth.ts';
import { testMarks, testsUnfit } from './marks.ts';
import type { Finding } from './standard-test.ts';
import { lossAlongDial, type Verdict, verdicts } from './verdict.ts';

/** What the standard tests of one moment found. */
export interface MomentFindings {
	readonly gear: TestGear;
	readonly findings: readonly Finding[];
	readonly verdicts: readonly Verdict[];
	/** What the loss along the dial points to. */
	readonly loss: string | null;
	/** Whose attenuator table corrects the inputs; `null` where they are taken as they are marked. */
	readonly corrected: MeasuredGenerator | null;
}

/** What the standard tests of a run prove. */
export interface Proof {
	readonly before: MomentFindings | null;
	readonly after: MomentFindings | null;
	readonly isSameGear: boolean;
	readonly differences: readonly Difference[];
}

const sameGear = (one: TestGear, other: TestGear): boolean =>
	JSON.stringify({ ...one, moment: null }) === JSON.stringify({ ...other, moment: null });

/**
 * Findings before and after the work, what changed, and how each stands to what this class of set can do.
 * @param gear of both moments; the latest of each counts
 * @param generators those whose dial or attenuator was checked: one of the gear's own name, or that a reading names, is read with its correction
 * @param language of what is said of each
 */
export function proofOf(
	facts: SetFacts,
	gear: readonly TestGear[],
	readings: readonly TestReading[],
	generators: GeneratorsKnown = noGenerators,
	language?: Language,
): Proof {
	const at = (moment: TestMoment): MomentFindings | null => {
		const own = gear.findLast((one) => one.moment === moment);
		if (!own || testsUnfit(facts) !== null || !readings.some((one) => one.moment === moment)) return null;
		const truth = withGeneratorTruth(own, readings, generators, sensitivityAsk(testMarks(facts).middleHz));
		const findings = testFindings(facts, truth.gear, truth.readings, language, truth.inputs);
		const list = verdicts(facts, own, findings, language);
		return {
			gear: own,
			findings,
			verdicts: list,
			loss: lossAlongDial(facts, list, language),
			corrected: truth.corrected,
		};
	};
	const before = at('before');
	const after = at('after');
	const isSameGear = before !== null && after !== null && sameGear(before.gear, after.gear);
	return {
		before,
		after,
		isSameGear,
		differences: before && after ? differences(before.findings, after.findings, isSameGear) : [],
	};
}
