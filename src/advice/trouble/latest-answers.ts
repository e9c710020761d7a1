import type { TestAnswer } from './ranking.ts';

/** The latest answer of each test, in their order. */
export function latestAnswers<Answer extends TestAnswer>(answers: readonly Answer[]): readonly Answer[] {
	const latest = new Map(answers.map(({ test }, at) => [test, at]));
	return answers.filter(({ test }, at) => latest.get(test) === at);
}
