import type { Parsed } from '#record/parsed.ts';
import { parseQuantity } from '#record/quantity.ts';
import { type CauseId, causes } from './causes.ts';
import { latestAnswers } from './latest-answers.ts';
import { type TestId, tests } from './tests.ts';
import type { TroubleTest } from './trouble-test.ts';
import { type TroubleId, troubles } from './troubles.ts';

/** One test answered. */
export interface TestAnswer {
	readonly test: TestId;
	/** Id of the outcome. */
	readonly outcome: string;
	/** What was typed, or where the answer is from, in a run's own words. */
	readonly words?: string;
}

/** What one answer says of one cause. */
export interface Evidence {
	readonly test: TestId;
	/** The outcome, in words. */
	readonly words: string;
	/** How much likelier the answer is under this cause than under the others: above 1 it speaks for the cause. */
	readonly times: number;
}

/** A cause with how likely it is now and why. */
export interface RankedCause {
	readonly cause: CauseId;
	/** 0 to 1; those of all causes of the trouble add up to 1. */
	readonly probability: number;
	readonly evidence: readonly Evidence[];
}

/** Share of answers that are wrong whatever the set does: misheard, misread, mistyped (chosen). */
const slipShare = 0.02;

/** Index of an outcome among those of its test, or -1. */
function outcomeIndex(test: TroubleTest, outcome: string): number {
	return test.outcomes.findIndex(({ id }) => id === outcome);
}

function slippedShares({ rows, otherwise }: TroubleTest, cause: CauseId): readonly number[] {
	const shares = rows.find((row) => row.causes.includes(cause))?.shares ?? otherwise;
	return shares.map((share) => (1 - slipShare) * share + slipShare / shares.length);
}

/** Reckoned once: the ranking asks for the same shares again and again. */
const reckoned: ReadonlyMap<TroubleTest, ReadonlyMap<string, readonly number[]>> = new Map(
	Object.values(tests).map((test) => [
		test,
		new Map((Object.keys(causes) as CauseId[]).map((cause) => [cause, slippedShares(test, cause)])),
	]),
);

/** How often each outcome of a test is met under a cause, slips counted in. */
export function outcomeShares(test: TroubleTest, cause: CauseId): readonly number[] {
	return reckoned.get(test)?.get(cause) ?? [];
}

/** Probabilities that add up to 1. */
function normalised(weights: readonly number[]): readonly number[] {
	const sum = weights.reduce((total, weight) => total + weight, 0);
	return weights.map((weight) => weight / sum);
}

/** The causes of a trouble with their probabilities before any test, in the order of the knowledge base. */
export function priorOf(trouble: TroubleId): { readonly ids: readonly CauseId[]; readonly shares: readonly number[] } {
	const listed = Object.entries(troubles[trouble].causes) as [CauseId, number][];
	return { ids: listed.map(([id]) => id), shares: normalised(listed.map(([, weight]) => weight)) };
}

/** Answers that count: known tests and outcomes, the latest of each test. */
export function standingAnswers<Answer extends TestAnswer>(answers: readonly Answer[]): readonly Answer[] {
	return latestAnswers(answers).filter(
		({ test, outcome }) => Object.hasOwn(tests, test) && outcomeIndex(tests[test], outcome) >= 0,
	);
}

/** Whether a test parts any of a trouble's causes from the others. */
export function tellsOf(trouble: TroubleId, test: TestId): boolean {
	const [first, ...others] = priorOf(trouble).ids.map((cause) => outcomeShares(tests[test], cause));
	return others.some((shares) => shares !== first && shares.some((share, at) => share !== first?.[at]));
}

/** Probabilities of a trouble's causes after answers, each answer multiplied in (Bayes), the tests taken as independent under each cause. */
export function posterior(trouble: TroubleId, answers: readonly TestAnswer[]): readonly number[] {
	const { ids, shares } = priorOf(trouble);
	const standing = standingAnswers(answers);
	return normalised(
		ids.map((id, k) =>
			standing.reduce(
				(weight, { test, outcome }) =>
					weight * (outcomeShares(tests[test], id)[outcomeIndex(tests[test], outcome)] as number),
				shares[k] as number,
			),
		),
	);
}

/** The causes of a trouble, likeliest first, each with what every answer says of it. */
export function rankedCauses(trouble: TroubleId, answers: readonly TestAnswer[]): readonly RankedCause[] {
	const { ids } = priorOf(trouble);
	const standing = standingAnswers(answers);
	const chances = posterior(trouble, standing);
	return ids
		.map((cause, k) => {
			const evidence = standing.map(({ test, outcome, words }): Evidence => {
				const at = outcomeIndex(tests[test], outcome);
				const others = posterior(
					trouble,
					standing.filter((answer) => answer.test !== test),
				);
				const own = outcomeShares(tests[test], cause)[at] as number;
				const rest = others.reduce((sum, chance, j) => (j === k ? sum : sum + chance), 0);
				const elsewhere = ids.reduce(
					(sum, id, j) =>
						j === k ? sum : sum + ((others[j] as number) / rest) * (outcomeShares(tests[test], id)[at] as number),
					0,
				);
				const said = tests[test].outcomes[at]?.words ?? outcome;
				return { test, words: words === undefined ? said : `${said} (${words})`, times: own / elsewhere };
			});
			return { cause, probability: chances[k] as number, evidence };
		})
		.sort((one, other) => other.probability - one.probability);
}

/** The outcome that a typed reading or the id of an outcome stands for. */
export function outcomeOf(id: TestId, words: string): Parsed<string> {
	const { outcomes, typed } = tests[id];
	if (outcomes.some((outcome) => outcome.id === words)) return { ok: true, value: words };
	if (!typed) return { ok: false, words: `give one of: ${outcomes.map((outcome) => outcome.id).join(', ')}` };
	const parsed = parseQuantity(typed.quantity, words);
	if (!parsed.ok) return parsed;
	const at = typed.bounds.filter((bound) => Math.abs(parsed.value) >= bound).length;
	return { ok: true, value: outcomes[at]?.id ?? '' };
}

/** The trouble that these answers fit best: the one under whose causes they are likeliest. */
export function likeliestTrouble(answers: readonly TestAnswer[]): TroubleId {
	const standing = standingAnswers(answers);
	const chance = (trouble: TroubleId): number => {
		const { ids, shares } = priorOf(trouble);
		return ids.reduce(
			(sum, id, k) =>
				sum +
				standing.reduce(
					(weight, { test, outcome }) =>
						weight * (outcomeShares(tests[test], id)[outcomeIndex(tests[test], outcome)] as number),
					shares[k] as number,
				),
			0,
		);
	};
	const ids = Object.keys(troubles) as TroubleId[];
	return ids.reduce((best, id) => (chance(id) > chance(best) ? id : best));
}
