import { frequencyWords } from '#record/quantity-words.ts';
import type { SetFacts } from '#record/set-facts.ts';
import type { TestAnswer } from '../trouble/ranking.ts';
import { imageAsk, oscillatorAsk, oscillatorMarksHz } from './asks.ts';
import { testMarks } from './marks.ts';
import type { MomentFindings } from './proof.ts';
import { lossesAlongDial } from './verdict.ts';

/** A loss below this is none: the test's own bound, decibels. */
const weakDb = 6;
/** An image nearer than this to its signal leaves open which of the two was meant, decibels (chosen). */
const surelyDb = 6;
/** The oscillator is taken for one place or the other within this share of the IF (chosen). */
const placeShare = 0.25;
const leastMarks = 3;

/** Where along the dial the set is weak against what its class can do. */
function ofLoss(facts: SetFacts, { verdicts }: MomentFindings): readonly TestAnswer[] {
	const losses = lossesAlongDial(facts, verdicts);
	const known = losses.flatMap(({ lossDb }) => (lossDb === null ? [] : [lossDb]));
	if (losses.length < 2 || known.length === 0) return [];
	const words = losses
		.map(
			({ dialHz, lossDb }) =>
				`${frequencyWords(dialHz, 'US')}: ${lossDb === null ? 'not reached' : `${lossDb.toFixed(0)} dB`}`,
		)
		.join(', ');
	const answer = (outcome: string): readonly TestAnswer[] => [{ test: 'three-points', outcome, words }];
	if (known.length < losses.length) return Math.min(...known) < weakDb ? answer('part') : [];
	const [low, high] = [losses[0]?.lossDb ?? 0, losses.at(-1)?.lossDb ?? 0];
	const most = Math.max(...known);
	if (most < weakDb) return answer('expected');
	if (most - Math.min(...known) < weakDb) return answer('alike');
	return answer(high >= low ? 'high' : 'low');
}

/** Where the oscillator runs. */
function ofOscillator(facts: SetFacts, { findings }: MomentFindings): readonly TestAnswer[] {
	const { ifHz } = facts;
	const own = findings.filter(({ test }) => test === 'oscillator');
	if (own.length < leastMarks || ifHz === null) return [];
	const answer = (outcome: string, words: string): readonly TestAnswer[] => [
		{ test: 'oscillator-heard', outcome, words },
	];
	const silent = own.filter(({ value }) => value === null);
	if (silent.length === own.length) return answer('nowhere', `silent at all ${own.length} marks`);
	if (silent.length > 0) return answer('stops', silent.map(({ label }) => `${label}: silent`).join(', '));
	const offs = oscillatorMarksHz(testMarks(facts)).flatMap((dialHz) => {
		const value = own.find(({ id }) => id === oscillatorAsk(dialHz))?.value;
		return value ? [value.value - dialHz] : [];
	});
	const isAt = (wantedHz: number): boolean => offs.every((off) => Math.abs(off - wantedHz) < placeShare * ifHz);
	if (isAt(-ifHz)) return answer('below', 'at the dial less the IF');
	return isAt(ifHz) ? answer('everywhere', `read at ${own.length} marks`) : [];
}

/** Whether signal or image is the stronger. */
function ofImage(facts: SetFacts, { findings }: MomentFindings): readonly TestAnswer[] {
	const { lowHz, middleHz, highHz } = testMarks(facts);
	const images = findings.filter(({ id, value }) => value && [lowHz, middleHz, highHz].map(imageAsk).includes(id));
	const weakest = images.reduce<number | null>(
		(least, { value }) => Math.min(least ?? Number.POSITIVE_INFINITY, value?.value ?? 0),
		null,
	);
	if (weakest === null || Math.abs(weakest) < surelyDb) return [];
	return [
		{
			test: 'image-heard',
			outcome: weakest > 0 ? 'here' : 'there',
			words: `image rejection ${weakest.toFixed(0)} dB at the least`,
		},
	];
}

/** What the standard tests of one moment say to the tests of trouble. */
export function testAnswers(facts: SetFacts, moment: MomentFindings): readonly TestAnswer[] {
	return [...ofLoss(facts, moment), ...ofOscillator(facts, moment), ...ofImage(facts, moment)];
}
