/** The dial's answer in the trade's words. */
import type { Culprit } from '#core/estimate/dial-belief.ts';
import type { DialState } from '#core/estimate/dial-model.ts';
import type { Estimate } from '#core/numeric/estimate.ts';
import { frequencyWords, signedWords } from '#record/quantity-words.ts';
import type { DialAct } from './dial-acts.ts';
import type { DialAnswer } from './dial-answer.ts';
import type { DialCause } from './dial-causes.ts';

/** Kilocycles with their sign and one decimal. */
export function kcWords(errorHz: number): string {
	return `${signedWords(errorHz / 1e3, 1)} kc`;
}

/** A worst error with its uncertainty. */
export function worstWords({ value, uncertainty }: Estimate): string {
	return `${(value / 1e3).toFixed(1)} \u00b1 ${((uncertainty ?? 0) / 1e3).toFixed(1)} kc`;
}

const unitWords = { pF: 'mmf', '%': '%', mm: 'mm', kHz: 'kc' } as const;

/** A cause's size with its uncertainty. */
export function sizeWords({ size: { value, uncertainty }, unit }: DialCause): string {
	return `${signedWords(value, 1)} \u00b1 ${(uncertainty ?? 0).toFixed(1)} ${unitWords[unit]}`;
}

/** One act as an instruction: by moving the generator from what is heard now, which the pointer's reading error does not touch, and where that comes to. */
export function actWords({ adjuster, sitAtDialHz, bringInHz, moveByHz, slipM }: DialAct, isFirst: boolean): string {
	const mark = frequencyWords(sitAtDialHz, 'US');
	if (adjuster === 'pointer') {
		const way = (slipM ?? 0) < 0 ? 'low' : 'high';
		return `Tune in ${frequencyWords(bringInHz, 'US')}, then slip the pointer to ${mark}: ${Math.abs((slipM ?? 0) * 1e3).toFixed(1)} mm toward the ${way} end.`;
	}
	if (isFirst) {
		return `Sit at ${mark} and do not move the dial again. Note what comes in, set the generator ${kcWords(moveByHz)} from it, about ${frequencyWords(bringInHz, 'US')}, and bring that in with the ${adjuster}.`;
	}
	return `Sit at ${mark} and bring in ${frequencyWords(bringInHz, 'US')} with the ${adjuster}.`;
}

/** One thing alone at fault, as words. */
function aloneWords(culprit: Culprit, state: DialState): string {
	const amount = (value: number, unit: string): string => `${signedWords(value, 1)} ${unit}`;
	switch (culprit) {
		case 'trimmerF':
			return `The trimmer, ${amount(state.trimmerF * 1e12, 'mmf')},`;
		case 'padderShare':
			return `The padder, ${amount(state.padderShare * 100, '%')},`;
		case 'coilShare':
			return `The coil, ${amount(state.coilShare * 100, '%')},`;
		case 'pointerM':
			return `The pointer, ${amount(state.pointerM * 1e3, 'mm')},`;
		case 'ifOffHz':
			return `The IF, ${amount(state.ifOffHz / 1e3, 'kc')},`;
	}
}

/** What a person should know of an answer besides its figures. */
export function remarkWords({
	causes,
	alike,
	errors,
	bestIf,
	isOtherNetwork,
	plan,
	model,
	fit,
}: DialAnswer): readonly string[] {
	const found = (cause: DialCause['cause']): DialCause | undefined => causes.find((one) => one.cause === cause);
	const sure = (one: DialCause | undefined): boolean =>
		one !== undefined && Math.abs(one.size.value) > 3 * (one.size.uncertainty ?? Number.POSITIVE_INFINITY);
	const bent = found('plates');
	const ifOff = found('IF');
	const [likeliest] = fit.alone;
	return [
		...fit.alone
			.filter((one) => one.share > (one === likeliest ? 0.2 : 0.1))
			.map(
				({ culprit, share, state }) =>
					`${aloneWords(culprit, state)} alone ${share > 0.5 ? 'explains these readings: most likely that' : 'would explain these readings as well'}.`,
			),
		...(alike.length > 0
			? [
					`The dial alone cannot tell ${alike[0]?.join(' and ')} apart. Close the gang and set the pointer on its end mark first; what is left is the other.`,
				]
			: []),
		...(sure(ifOff) && Math.abs(ifOff?.size.value ?? 0) > 2
			? [`The IF seems off by ${sizeWords(ifOff as DialCause)}: set the IF first, then check the dial again.`]
			: []),
		...(sure(bent) && bent?.aboutDialHz
			? [
					`About ${frequencyWords(bent.aboutDialHz, 'US')} ${sizeWords(bent)} is left that neither trimmer, low end, coil nor pointer makes: plates may be bent there. Note it; do not bend them for so little.`,
				]
			: []),
		...(isOtherNetwork
			? [`The readings speak for the trimmer across the ${model.ground.network}. A second pass will tell.`]
			: []),
		...(bestIf
			? [
					`No adjuster at the low end: with the IF at ${frequencyWords(bestIf.ifHz, 'US')} as well, ${worstWords(bestIf.worstHz)} would be left.`,
				]
			: []),
		...(errors.length < 5
			? [
					`${errors.length} marks say little of who is at fault: 7 spread over the scale are best, and no sum makes up for them.`,
				]
			: []),
		...(plan.acts.length === 0 ? ['Nothing that can be turned makes this dial better than it is.'] : []),
		...(plan.acts.some(({ adjuster }) => adjuster === 'padder')
			? ['The padder\u2019s screw may carry plate voltage: insulated driver, one hand.']
			: []),
	];
}
