import { outcomeOf, type TestAnswer } from '#advice/trouble/ranking.ts';
import { type TestId, tests } from '#advice/trouble/tests.ts';

/** Answers as one piece of an address: Back takes the latest one back, and a reload keeps them. */
export function answersText(answers: readonly TestAnswer[]): string {
	return answers.map(({ test, outcome, words }) => `${test}=${encodeURIComponent(words ?? outcome)}`).join(',');
}

/** The answers that a piece of an address holds; what cannot be read is left out. */
export function answersOf(text: string): readonly TestAnswer[] {
	return text.split(',').flatMap((piece): TestAnswer[] => {
		const [test = '', said = ''] = piece.split('=');
		if (!Object.hasOwn(tests, test)) return [];
		const words = decodeURIComponent(said);
		const outcome = outcomeOf(test as TestId, words);
		if (!outcome.ok) return [];
		return [{ test: test as TestId, outcome: outcome.value, ...(words === outcome.value ? {} : { words }) }];
	});
}
