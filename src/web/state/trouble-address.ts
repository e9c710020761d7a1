import { outcomeOf, type TestAnswer } from '#advice/trouble/ranking.ts';
import { type TestId, tests } from '#advice/trouble/tests.ts';
import { decoded } from './decoded.ts';

/** Answers, and tests whose answers from a run are put aside, as one piece of an address: Back takes the latest one back, and a reload keeps them. */
export function answersText(answers: readonly TestAnswer[], aside: readonly TestId[] = []): string {
	const given = answers.map(({ test, outcome, words }) => `${test}=${encodeURIComponent(words ?? outcome)}`);
	return [...given, ...aside.map((test) => `${asideMark}${test}`)].join(',');
}

const asideMark = '~';

/** The tests whose answers from a run are put aside. */
export function asideOf(text: string): readonly TestId[] {
	return text
		.split(',')
		.filter((piece) => piece.startsWith(asideMark))
		.map((piece) => piece.slice(asideMark.length))
		.filter((test): test is TestId => Object.hasOwn(tests, test));
}

/** The answers that a piece of an address holds; what cannot be read is left out. */
export function answersOf(text: string): readonly TestAnswer[] {
	return text.split(',').flatMap((piece): TestAnswer[] => {
		const [test = '', said = ''] = piece.split('=');
		if (!Object.hasOwn(tests, test)) return [];
		const words = decoded(said);
		const outcome = outcomeOf(test as TestId, words);
		if (!outcome.ok) return [];
		return [{ test: test as TestId, outcome: outcome.value, ...(words === outcome.value ? {} : { words }) }];
	});
}
