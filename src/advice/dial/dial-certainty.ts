/** How well a dial is known by the marks that were read, and how well it would be by more of them. */
import { type DialFit, fitDial } from '#core/estimate/dial-fit.ts';
import { leversOf } from '#core/estimate/dial-model.ts';
import { type DialPoint, latestTurned } from '#core/estimate/dial-solve.ts';
import type { DialAnswer } from './dial-answer.ts';

/** Uncertainty of the error where the scale is known least after the acts, one standard deviation. */
export interface DialCertainty {
	readonly nowHz: number;
	/** With the marks read that are left. */
	readonly thenHz: number;
}

/** What a reading of a mark that was not read yet is taken to be worth, besides the pointer. */
const heardUncertaintyHz = 200;

/**
 * What more marks would add: they are taken for read just as the answer foretells them.
 * @param leftHz marks that are proposed and not read yet
 */
export function dialCertainty(
	{ model, fit, plan }: DialAnswer,
	points: readonly DialPoint[],
	leftHz: readonly number[],
): DialCertainty {
	const pass = Math.max(...points.map((point) => point.pass));
	const turned = latestTurned(leversOf(model.ground), points);
	const foretold = leftHz.map((dialHz) => ({
		dialHz,
		heardHz: model.heardHz(fit.state, dialHz),
		heardUncertaintyHz,
		pass,
		turned,
	}));
	const leastKnown = (one: DialFit): number =>
		Math.max(...one.errorsOf(plan.after, model.judgedMarksHz()).errors.map(({ uncertainty }) => uncertainty ?? 0));
	return { nowHz: leastKnown(fit), thenHz: leastKnown(fitDial(model, [...points, ...foretold])) };
}

/** Proposed marks that no reading lies near: a reading serves the proposed mark that it is nearest to. */
export function unreadMarksHz(proposedHz: readonly number[], readHz: readonly number[]): readonly number[] {
	const served = readHz.map((one) =>
		proposedHz.reduce(
			(best, mark) => (Math.abs(Math.log(mark / one)) < Math.abs(Math.log(best / one)) ? mark : best),
			proposedHz[0] ?? one,
		),
	);
	return proposedHz.filter((mark) => !served.includes(mark));
}
