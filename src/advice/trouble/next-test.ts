import { mutualInformationBits } from '#core/numeric/information.ts';
import { outcomeShares, posterior, priorOf, standingAnswers, type TestAnswer } from './ranking.ts';
import { type TestId, tests } from './tests.ts';
import type { TestDanger } from './trouble-test.ts';
import type { TroubleId } from './troubles.ts';

/** A test with what it is worth now. */
export interface ProposedTest {
	readonly test: TestId;
	/** Information that it brings on the average, bits. */
	readonly informationBits: number;
	/** What it costs: its minutes, weighed by its danger. */
	readonly cost: number;
}

/** A hand inside the dead set weighs twice, a lead joined to it and read live three times as much as a test from outside (chosen). */
const dangerTimes: Readonly<Record<TestDanger, number>> = { none: 1, unplugged: 2, clipped: 3 };
/** Getting up for any test costs this much besides (chosen): it keeps a glance from beating what settles the matter. */
const leastMinutes = 1.5;
/** Less than this is not worth a test (chosen). */
const leastBits = 0.03;

/** Minutes of a test weighed by its danger. */
function testCost(test: TestId): number {
	const { takesS, danger } = tests[test];
	return (leastMinutes + takesS / 60) * dangerTimes[danger];
}

/** Tests that are still open and worth something, the most information for the least effort and danger first. */
export function proposedTests(trouble: TroubleId, answers: readonly TestAnswer[]): readonly ProposedTest[] {
	const standing = standingAnswers(answers);
	const { ids } = priorOf(trouble);
	const chances = posterior(trouble, standing);
	return (Object.keys(tests) as TestId[])
		.filter((test) => !standing.some((answer) => answer.test === test))
		.map((test) => ({
			test,
			informationBits: mutualInformationBits(
				chances,
				ids.map((id) => outcomeShares(tests[test], id)),
			),
			cost: testCost(test),
		}))
		.filter((proposed) => proposed.informationBits >= leastBits)
		.sort((one, other) => other.informationBits / other.cost - one.informationBits / one.cost);
}
