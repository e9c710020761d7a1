import type { LevelStep } from '#advice/coach/level-step.ts';
import { agoWords } from '#advice/generator-place.ts';
import { correctedWords } from '#advice/marked-level.ts';
import { decimalWords, voltageWords } from '#record/quantity-words.ts';
import { type FittedLaw, stepsThatCount } from './avc-laws.ts';
import type { LawCheck } from './level-scale.ts';

/** Whose law it is, as part of a sentence: "the AVC law measured 12 days ago". */
function lawWords({ atMs }: FittedLaw, nowMs: number): string {
	return `the AVC law measured ${agoWords(atMs, nowMs)}`;
}

/** How a law was taken, as a sentence: when, from where to where, with what. */
export function lawSummary(law: FittedLaw, nowMs: number): string {
	const levels = stepsThatCount(law).map(({ step }) => step.levelV);
	const [least, most] = [levels[0] ?? 0, levels.at(-1) ?? 0];
	return `Measured ${agoWords(law.atMs, nowMs)}: ${levels.length} steps from ${voltageWords(least)} to ${voltageWords(most)}, generator ${law.begun.generator}, meter ${law.instrument}.${law.corrected ? ` ${correctedWords(law.corrected, nowMs)}` : ''}`;
}

/** What a step of 6 dB says by a law, with what to do next. */
export function lawCheckWords(step: LevelStep, check: LawCheck, law: FittedLaw, nowMs: number): string {
	const said = `The step reads ${decimalWords(step.stepDb.value, 1)} dB, and ${decimalWords(check.inputDb.value, 1)} dB at the input by ${lawWords(law, nowMs)}.`;
	switch (check.verdict) {
		case 'holds':
			return `${said} The law holds: levels are shown at the input, with AVC taken out.`;
		case 'holds no more':
			return `${said} The law holds no more: was a part or a tube changed, or the volume moved? Put the volume back, or measure the law anew. Levels are shown at the output.`;
		case 'uncertain':
			return `${said} These readings are too uncertain to say whether the law holds. Levels are shown at the output.`;
	}
}

/** Which decibels are shown, and why, as a sentence. */
export function scaleWords(
	shown: 'input' | 'output',
	held: FittedLaw | null,
	newest: FittedLaw | null,
	nowMs: number,
): string {
	if (held && shown === 'input') return `Decibels at the input: AVC is taken out by ${lawWords(held, nowMs)}.`;
	const at = 'Decibels at the output.';
	if (held) return `${at} What was read here lies outside ${lawWords(held, nowMs)}.`;
	if (newest) return `${at} Make a 6 dB step to see whether ${lawWords(newest, nowMs)} still holds.`;
	return at;
}
