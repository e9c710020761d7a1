/** The whole answer to a dial's readings: errors, who is at fault, what to do, what will remain. */
import { type DialFit, fitEitherNetwork } from '#core/estimate/dial-fit.ts';
import type { DialGround, DialModel } from '#core/estimate/dial-model.ts';
import type { DialPoint } from '#core/estimate/dial-solve.ts';
import type { Estimate } from '#core/numeric/estimate.ts';
import { bestState, type DialPlan, dialPlan, worstEstimate } from './dial-acts.ts';
import { type DialCause, dialCauses } from './dial-causes.ts';

/** One mark of the last pass, its readings averaged. */
export interface DialError {
	readonly dialHz: number;
	readonly errorHz: number;
	/** Of the mean: pointer, generator and peak, and no less than the scatter of repeats says. */
	readonly uncertaintyHz: number;
	readonly readings: number;
}

/** A coil that is known no better than this is not told from a slipped pointer (chosen: 1 % of coil looks like about 3 mm of pointer). */
const unknownCoilShare = 0.004;

/** What a dial's readings say. */
export interface DialAnswer {
	readonly model: DialModel;
	readonly fit: DialFit;
	readonly errors: readonly DialError[];
	readonly causes: readonly DialCause[];
	readonly plan: DialPlan;
	/** Causes that these readings cannot tell apart. */
	readonly alike: readonly (readonly DialCause['cause'][])[];
	/** Sets without a low-end adjuster: the IF with which the dial is best, and what is left then. */
	readonly bestIf: { readonly ifHz: number; readonly worstHz: Estimate } | null;
	/** The readings speak for the trimmer at the other place than was said. */
	readonly isOtherNetwork: boolean;
}

/** Readings of one mark in one pass, averaged. */
function markErrors(model: DialModel, points: readonly DialPoint[]): readonly DialError[] {
	const marksHz = [...new Set(points.map(({ dialHz }) => dialHz))].sort((a, b) => a - b);
	return marksHz.map((dialHz) => {
		const own = points.filter((point) => point.dialHz === dialHz);
		const count = own.length;
		const mean = own.reduce((sum, { heardHz }) => sum + heardHz, 0) / count;
		const spreadHz2 = own.reduce((sum, { heardHz }) => sum + (heardHz - mean) ** 2, 0) / Math.max(count - 1, 1);
		const [first] = own as [DialPoint];
		const pointerHz = model.scale.slopeHzPerM(dialHz) * model.ground.readingM;
		const statedHz2 = pointerHz ** 2 + first.heardUncertaintyHz ** 2;
		return {
			dialHz,
			errorHz: mean - dialHz,
			uncertaintyHz: Math.sqrt(Math.max(statedHz2, spreadHz2) / count),
			readings: count,
		};
	});
}

/**
 * What a dial's readings say of a set, for the last of their passes.
 * @param sitMarksHz marks that the pointer can be set on; those that were read when not given
 * @param points at least two; passes counted from 0 without gaps
 */
export function dialAnswer(
	ground: DialGround,
	points: readonly DialPoint[],
	sitMarksHz: readonly number[] = points.map(({ dialHz }) => dialHz),
): DialAnswer {
	const { model, fit } = fitEitherNetwork(ground, points);
	const last = Math.max(...points.map(({ pass }) => pass));
	const levels = ['pointerM', 'trimmerF', 'ifOffHz'] as const;
	const withIf = ground.lowEnd === 'none' ? bestState(model, fit, levels) : null;
	return {
		model,
		fit,
		errors: markErrors(
			model,
			points.filter(({ pass }) => pass === last),
		),
		causes: dialCauses(model, fit),
		plan: dialPlan(model, fit, sitMarksHz),
		alike:
			fit.uncertainty.coilShare > unknownCoilShare ? [[ground.lowEnd === 'slug' ? 'slug' : 'coil', 'pointer']] : [],
		bestIf: withIf && { ifHz: ground.ifHz + withIf.ifOffHz, worstHz: worstEstimate(model, fit, withIf) },
		isOtherNetwork: model.ground.network !== ground.network,
	};
}

/** Why readings cannot be used, with the place of the one at fault; `null` when they can. */
export function readingFault(
	{ band, ifHz }: Pick<DialGround, 'band' | 'ifHz'>,
	points: readonly Pick<DialPoint, 'dialHz' | 'heardHz'>[],
): { readonly place: number; readonly words: string } | null {
	for (const [place, { dialHz, heardHz }] of points.entries()) {
		if (dialHz < band.lowHz * 0.95 || dialHz > band.highHz * 1.05) {
			return { place, words: 'the mark lies outside the band: give the band that it belongs to, or take it out' };
		}
		const off = heardHz - dialHz;
		if (Math.abs(Math.abs(off) - 2 * ifHz) < 0.12 * ifHz + 0.03 * dialHz) {
			return { place, words: 'what is heard lies two IFs away: that is the image; find the signal itself' };
		}
		if (Math.abs(off) > 0.25 * dialHz) {
			return { place, words: 'what is heard is more than a quarter off the mark: check both numbers' };
		}
	}
	return null;
}
