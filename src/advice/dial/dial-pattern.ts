import type { TestAnswer } from '../trouble/ranking.ts';
import type { DialAnswer, DialError } from './dial-answer.ts';
import { kcWords } from './dial-words.ts';

/** A dial within this is true, hertz: commonly accepted (common practice). */
const trueHz = 5e3;
/** Marks that tell a pattern. */
const leastMarks = 4;
/** What a pattern leaves, as a share of what it explains (chosen). */
const leftShare = 0.35;
/** Of two patterns the better one must leave this much less than the other (chosen). */
const betterShare = 0.7;

const rms = (values: readonly number[]): number =>
	Math.sqrt(values.reduce((sum, value) => sum + value * value, 0) / values.length);

/** Root mean square that is left of errors when their best multiple of a shape is taken out. */
function leftOf(errorsHz: readonly number[], shape: readonly number[]): number {
	const size =
		errorsHz.reduce((sum, error, k) => sum + error * (shape[k] as number), 0) /
		shape.reduce((sum, one) => sum + one * one, 0);
	return rms(errorsHz.map((error, k) => error - size * (shape[k] as number)));
}

/**
 * How a dial is off, in the outcomes of the test of its pattern; `null` where the readings leave it open.
 * @param slopeHzPerM of the scale at a mark
 */
export function dialPattern(
	answer: Pick<DialAnswer, 'errors'>,
	slopeHzPerM: (dialHz: number) => number,
): string | null {
	const { errors } = answer;
	const errorsHz = errors.map(({ errorHz }) => errorHz);
	const sizes = errorsHz.map(Math.abs);
	const worstHz = Math.max(...sizes);
	if (worstHz <= trueHz) return 'true';
	const sureHz = rms(errors.map(({ uncertaintyHz }) => uncertaintyHz));
	const byKc = leftOf(
		errorsHz,
		errors.map(() => 1),
	);
	const byDistance = leftOf(
		errorsHz,
		errors.map(({ dialHz }) => slopeHzPerM(dialHz)),
	);
	const least = Math.min(byKc, byDistance);
	if (least < Math.max(leftShare * rms(errorsHz), sureHz)) {
		// Where the scale is nearly even the two look alike.
		const most = Math.max(byKc, byDistance);
		if (most <= sureHz || least > betterShare * most) return null;
		return byKc < byDistance ? 'kilocycles' : 'distance';
	}
	const [first, last] = [sizes[0] as number, sizes.at(-1) as number];
	const between = Math.max(...sizes.slice(1, -1));
	if (between > Math.max(first, last) && Math.max(first, last) <= Math.max(trueHz, between / 3)) return 'middle';
	return last > first ? 'high' : 'low';
}

const errorWords = (errors: readonly DialError[]): string => {
	const [first, last] = [errors[0] as DialError, errors.at(-1) as DialError];
	const middle = errors[errors.length >> 1] as DialError;
	return [first, middle, last]
		.map(({ dialHz, errorHz }) => `${kcWords(errorHz)} at ${Math.round(dialHz / 1e3)}`)
		.join(', ');
};

/** What the readings of a dial say to the tests of trouble; nothing with fewer than four marks. */
export function dialAnswers(answer: Pick<DialAnswer, 'errors' | 'model'>): readonly TestAnswer[] {
	if (answer.errors.length < leastMarks) return [];
	const outcome = dialPattern(answer, (dialHz) => answer.model.scale.slopeHzPerM(dialHz));
	return outcome === null ? [] : [{ test: 'dial-pattern', outcome, words: errorWords(answer.errors) }];
}
