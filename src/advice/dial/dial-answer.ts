/** The whole answer to a dial's readings: errors, who is at fault, what to do, what will remain. */
import { type DialFit, fitEitherNetwork } from '#core/estimate/dial-fit.ts';
import { type DialGround, DialModel, type Lever, leversOf } from '#core/estimate/dial-model.ts';
import { type DialPoint, turnsBefore } from '#core/estimate/dial-solve.ts';
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
	/** Standard deviation of repeats; `null` for a single reading. */
	readonly scatterHz: number | null;
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
	/** How well the pointer really is set, where repeats scatter much more than was stated: it was reckoned with; `null` where they keep to it. */
	readonly scatterM: number | null;
	/** The readings speak for the trimmer at the other place than was said. */
	readonly isOtherNetwork: boolean;
}

/** What one reading may be off by, as stated: pointer, generator and peak. */
function statedHz({ scale, ground }: DialModel, { dialHz, heardUncertaintyHz }: DialPoint): number {
	return Math.hypot(scale.slopeHzPerM(dialHz) * ground.readingM, heardUncertaintyHz);
}

/** Readings that the last pass began with: those taken at its acts, some levers turned, are left out. */
function marksOfPass(ground: DialGround, points: readonly DialPoint[]): readonly DialPoint[] {
	const last = Math.max(...points.map(({ pass }) => pass));
	const own = points.filter(({ pass }) => pass === last);
	const first = own[0] as DialPoint;
	return own.filter((point) =>
		leversOf(ground).every((lever) => turnsBefore(point, lever) === turnsBefore(first, lever)),
	);
}

/** Readings of one mark in one pass, averaged. */
function markErrors(model: DialModel, points: readonly DialPoint[]): readonly DialError[] {
	const marksHz = [...new Set(points.map(({ dialHz }) => dialHz))].sort((a, b) => a - b);
	return marksHz.map((dialHz) => {
		const own = points.filter((point) => point.dialHz === dialHz) as [DialPoint, ...DialPoint[]];
		const count = own.length;
		const mean = own.reduce((sum, { heardHz }) => sum + heardHz, 0) / count;
		const scatterHz =
			count === 1 ? null : Math.sqrt(own.reduce((sum, { heardHz }) => sum + (heardHz - mean) ** 2, 0) / (count - 1));
		return {
			dialHz,
			errorHz: mean - dialHz,
			uncertaintyHz: Math.max(statedHz(model, own[0]), scatterHz ?? 0) / Math.sqrt(count),
			readings: count,
			scatterHz,
		};
	});
}

/** Repeats that scatter more than this many times what was stated, over three or more of them, are believed (chosen: chance does so once in a hundred). */
const scatterFactor = 2;
const repeatsBelieved = 3;

/** How well the pointer is set by the repeats themselves, against what was stated: their scatter over all marks and passes. `null` with too few of them, or when they keep to it. */
function scatterM(model: DialModel, points: readonly DialPoint[]): number | null {
	let square = 0;
	let repeats = 0;
	const keyOf = (point: DialPoint): string =>
		[point.dialHz, ...leversOf(model.ground).map((lever) => turnsBefore(point, lever))].join(' ');
	for (const key of new Set(points.map(keyOf))) {
		const own = points.filter((point) => keyOf(point) === key);
		const mean = own.reduce((sum, { heardHz }) => sum + heardHz, 0) / own.length;
		for (const point of own) square += ((point.heardHz - mean) / statedHz(model, point)) ** 2;
		repeats += own.length - 1;
	}
	const factor = Math.sqrt(square / Math.max(repeats, 1));
	return repeats >= repeatsBelieved && factor > scatterFactor ? factor * model.ground.readingM : null;
}

/**
 * What a dial's readings say of a set, for the last of their passes.
 * @param sitMarksHz marks that the pointer can be set on; those that were read when not given
 * @param points at least two; passes counted from 0 without gaps
 * @param left levers that are still to be turned in a pass whose first act is done
 */
export function dialAnswer(
	stated: DialGround,
	points: readonly DialPoint[],
	sitMarksHz: readonly number[] = points.map(({ dialHz }) => dialHz),
	left: readonly Lever[] | null = null,
): DialAnswer {
	const readingM = scatterM(new DialModel(stated), points);
	const ground = readingM === null ? stated : { ...stated, readingM };
	const { model, fit } = fitEitherNetwork(ground, points);
	const hasLowEnd = leversOf(ground).some((lever) => lever === 'padderShare' || lever === 'coilShare');
	const withIf = !hasLowEnd ? bestState(model, fit, [...leversOf(ground), 'ifOffHz']) : null;
	return {
		model,
		fit,
		errors: markErrors(model, marksOfPass(ground, points)),
		causes: dialCauses(model, fit),
		plan: dialPlan(model, fit, sitMarksHz, left),
		alike:
			fit.uncertainty.coilShare > unknownCoilShare ? [[ground.lowEnd === 'slug' ? 'slug' : 'coil', 'pointer']] : [],
		bestIf: withIf && { ifHz: ground.ifHz + withIf.ifOffHz, worstHz: worstEstimate(model, fit, withIf) },
		scatterM: readingM,
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
		if (Math.abs(Math.abs(off) - 2 * ifHz) < Math.min(0.12 * ifHz + 0.03 * dialHz, 0.5 * ifHz)) {
			return { place, words: 'what is heard lies two IFs away: that is the image; find the signal itself' };
		}
		if (Math.abs(off) > 0.25 * dialHz) {
			return { place, words: 'what is heard is more than a quarter off the mark: check both numbers' };
		}
	}
	return null;
}
