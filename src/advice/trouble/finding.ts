import { causes } from './causes.ts';
import { type ProposedTest, proposedTests } from './next-test.ts';
import {
	outcomeShares,
	posterior,
	priorOf,
	type RankedCause,
	rankedCauses,
	standingAnswers,
	type TestAnswer,
} from './ranking.ts';
import { tests } from './tests.ts';
import type { TroubleId } from './troubles.ts';

/** Where a trouble stands: its causes, the next test, and whether it is settled. */
export interface Finding {
	readonly trouble: TroubleId;
	/** Likeliest first. */
	readonly causes: readonly RankedCause[];
	/** `null` when no test is worth its effort, or the matter is settled. */
	readonly nextTest: ProposedTest | null;
	/** Other tests that are open, best first. */
	readonly otherTests: readonly ProposedTest[];
	readonly isSettled: boolean;
	/** What it comes to, in one sentence. */
	readonly words: string;
	/** Answers that would turn it over. */
	readonly wouldChange: readonly string[];
	/** Why to stop here and hand the set to a licensed person; `null` when the work may go on. */
	readonly handOver: string | null;
}

/** A cause this likely is taken for found (chosen): one in seven may still be wrong, and what would change it is said. */
const settledAt = 0.85;
/** A hazard is handed over as soon as it is this likely (chosen). */
const handOverAt = 0.3;

/** Answers that would put another cause in front or make the first one less sure: to open tests, or to those answered if they were to come out otherwise. */
function turningPoints(
	trouble: TroubleId,
	answers: readonly TestAnswer[],
	open: readonly ProposedTest[],
): readonly string[] {
	const { ids } = priorOf(trouble);
	const now = posterior(trouble, answers);
	const first = now.indexOf(Math.max(...now));
	const asked = [...open.map(({ test }) => test), ...standingAnswers(answers).map(({ test }) => test)];
	return asked
		.flatMap((test) =>
			tests[test].outcomes.map((outcome, at) => {
				const then = posterior(trouble, [...answers, { test, outcome: outcome.id }]);
				const chance = ids.reduce(
					(sum, id, k) => sum + (now[k] as number) * (outcomeShares(tests[test], id)[at] as number),
					0,
				);
				return { test, outcome, leader: then.indexOf(Math.max(...then)), left: then[first] as number, chance };
			}),
		)
		.filter(({ leader, left }) => leader !== first || left < 0.9 * (now[first] as number))
		.sort((one, other) => Number(other.leader !== first) - Number(one.leader !== first) || other.chance - one.chance)
		.filter(({ test }, at, all) => all.findIndex((one) => one.test === test) === at)
		.slice(0, 3)
		.map(({ test, outcome, leader, left }) => {
			const cause = ids[leader];
			const says =
				leader === first || cause === undefined
					? `would leave it at ${Math.round(100 * left)} %`
					: `would speak for another cause: ${lower(causes[cause].words)}`;
			return `${tests[test].words} \u201c${outcome.words}\u201d ${says}.`;
		});
}

const lower = (words: string): string =>
	/^(IF|AVC|FM|B-plus)\b/.test(words) ? words : words.charAt(0).toLowerCase() + words.slice(1);

/** Where a trouble stands after these answers. */
export function findingOf(trouble: TroubleId, answers: readonly TestAnswer[]): Finding {
	const ranked = rankedCauses(trouble, answers);
	const open = proposedTests(trouble, answers);
	const [first, second] = ranked;
	const isSettled = first !== undefined && first.probability >= settledAt;
	const [next, ...others] = open;
	const hazard = ranked.find(
		({ cause, probability }) => causes[cause].handOver !== undefined && probability >= handOverAt,
	);
	// A hazard that the first reading has not yet borne out is not called one.
	const handOver = hazard !== undefined && answers.length > 0 ? (causes[hazard.cause].handOver ?? null) : null;
	const words =
		first === undefined
			? ''
			: isSettled
				? `${causes[first.cause].words}.`
				: next === undefined && second !== undefined
					? `Not settled by the tests there are: ${lower(causes[first.cause].words)}, or ${lower(causes[second.cause].words)}.`
					: `Likeliest so far: ${lower(causes[first.cause].words)}.`;
	return {
		trouble,
		causes: ranked,
		nextTest: isSettled || handOver !== null ? null : (next ?? null),
		otherTests: isSettled || handOver !== null ? open : others,
		isSettled,
		words,
		wouldChange: turningPoints(trouble, answers, open),
		handOver,
	};
}
