import { heardOutcome } from '#advice/trouble/heard-outcome.ts';
import type { TestId } from '#advice/trouble/tests.ts';
import type { HeardSound } from '#record/heard.ts';
import type { FoundAnswer } from './found-answer.ts';

/** What a sound that was kept says to the tests of trouble: with the generator down what is left, with a bare carrier whether the level jumps. */
export function ofListening({ generator, heard }: HeardSound): readonly FoundAnswer[] {
	const tests: readonly TestId[] = generator === 'down' ? ['silence', 'hum-pitch'] : ['crackle-steps'];
	return tests.flatMap((test): readonly FoundAnswer[] => {
		const found = heardOutcome(test, heard);
		// That there is no hum is said by the silence already.
		if (found === null || (test === 'hum-pitch' && found.outcome === 'none')) return [];
		return [{ test, outcome: found.outcome, words: found.words, foundIn: 'listening' }];
	});
}
