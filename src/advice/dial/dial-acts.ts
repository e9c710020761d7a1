/** What two acts put a dial right, and what is foretold to remain. */
import type { DialFit } from '#core/estimate/dial-fit.ts';
import { type DialModel, type DialState, type Lever, leversOf } from '#core/estimate/dial-model.ts';
import type { Estimate } from '#core/numeric/estimate.ts';
import { createRandom } from '#core/numeric/random.ts';
import { symmetricSolve } from '#core/numeric/symmetric-solve.ts';

/** One act at the bench. */
export interface DialAct {
	readonly adjuster: 'trimmer' | 'padder' | 'slug' | 'pointer';
	/** Where the pointer stands; for the pointer itself, the mark to put it on. */
	readonly sitAtDialHz: number;
	/** The generator's frequency to bring in with the adjuster; for the pointer, the one to tune in before it is slipped. */
	readonly bringInHz: number;
	/** How far this moves what comes in there. Counted from what is heard there now, it is free of the pointer's reading error. */
	readonly moveByHz: number;
	/** Pointer only: how far it is slipped, toward the high end. */
	readonly slipM: number | null;
}

/** The plan of one pass. */
export interface DialPlan {
	/** At most two, in bench order; none when nothing is worth turning. */
	readonly acts: readonly DialAct[];
	/** The set as it will stand. */
	readonly after: DialState;
	/** Worst error over 13 marks after the acts. */
	readonly predictedWorstHz: Estimate;
	/** Worst error as it stands. */
	readonly worstNowHz: Estimate;
}

/** What the dial is made best by: the levers, and the IF of the strip. */
type Resettable = Lever | 'ifOffHz';

/** How far each lever is tried for its effect. */
const stepOf: Readonly<Record<Resettable, number>> = {
	trimmerF: 0.1e-12,
	padderShare: 1e-3,
	coilShare: 1e-3,
	pointerM: 0.05e-3,
	ifOffHz: 50,
};

const draws = 200;

/**
 * The levers' places for which the dial is best: the errors' sixth powers, with what is not known of them, are made least, so that the worst counts most.
 */
export function bestState(model: DialModel, fit: DialFit, levers: readonly Resettable[]): DialState {
	const marksHz = model.judgedMarksHz();
	const variances = fit.errorsOf(fit.state, marksHz).errors.map(({ uncertainty }) => (uncertainty ?? 0) ** 2);
	const errorsHz = (state: DialState): number[] => marksHz.map((dialHz) => model.errorHz(state, dialHz));
	const cost = (errors: readonly number[]): number =>
		errors.reduce((sum, errorHz, k) => sum + (errorHz ** 2 + (variances[k] as number)) ** 3, 0);
	let state = fit.state;
	let here = errorsHz(state);
	for (let round = 0; round < 40; round++) {
		const step = levelledStep(model, state, here, variances, levers);
		let next = state;
		let nextHz = here;
		// The weights shift with the errors: a step that makes it worse is shortened.
		for (let share = 1; share > 1e-3 && next === state; share /= 2) {
			const tried = { ...state };
			for (const [place, lever] of levers.entries()) tried[lever] += share * (step[place] as number) * stepOf[lever];
			const triedHz = errorsHz(tried);
			if (cost(triedHz) < cost(here)) {
				next = tried;
				nextHz = triedHz;
			}
		}
		const gained = cost(here) - cost(nextHz);
		const isDone = !(gained > 1e-6 * cost(here));
		state = next;
		here = nextHz;
		if (isDone) break;
	}
	return state;
}

/** One step by least squares in which the greatest errors weigh most, in each lever's own steps. */
function levelledStep(
	model: DialModel,
	state: DialState,
	here: readonly number[],
	variances: readonly number[],
	levers: readonly Resettable[],
): Float64Array {
	const marksHz = model.judgedMarksHz();
	const weights = here.map((errorHz, k) => (errorHz ** 2 + (variances[k] as number) + 100) ** 2);
	const greatest = Math.max(...weights);
	const slopes = levers.map((lever) => {
		const moved = { ...state, [lever]: state[lever] + stepOf[lever] };
		return marksHz.map((dialHz, k) => model.errorHz(moved, dialHz) - (here[k] as number));
	});
	const count = levers.length;
	const normal = new Float64Array(count * count);
	const right = new Float64Array(count);
	for (let i = 0; i < count; i++) {
		for (let j = 0; j < count; j++) {
			normal[i * count + j] = weighed(weights, greatest, slopes[i] ?? [], slopes[j] ?? []);
		}
		right[i] = -weighed(weights, greatest, slopes[i] ?? [], here);
	}
	return symmetricSolve(normal, right);
}

function weighed(
	weights: readonly number[],
	greatest: number,
	one: readonly number[],
	other: readonly number[],
): number {
	return weights.reduce((sum, weight, k) => sum + (weight / greatest) * (one[k] as number) * (other[k] as number), 0);
}

/** Worst error over the judged marks of a state, with what is not known of it; seeded, so that the same readings say the same. */
export function worstEstimate(model: DialModel, fit: DialFit, state: DialState): Estimate {
	const random = createRandom(4711);
	const spread = fit.errorsOf(state, model.judgedMarksHz());
	const worst = Array.from({ length: draws }, () => Math.max(...spread.drawnHz(() => random.gaussian()).map(Math.abs)));
	const mean = worst.reduce((sum, one) => sum + one, 0) / draws;
	const variance = worst.reduce((sum, one) => sum + (one - mean) ** 2, 0) / (draws - 1);
	return { value: mean, uncertainty: Math.sqrt(variance) };
}

/** What each lever is called at the bench. */
const adjusterOf = { trimmerF: 'trimmer', padderShare: 'padder', coilShare: 'slug', pointerM: 'pointer' } as const;
/** The lever that an act turns. */
export const leverOf = { trimmer: 'trimmerF', padder: 'padderShare', slug: 'coilShare', pointer: 'pointerM' } as const;

/**
 * At most two acts that put the dial right.
 * @param marksHz marks that the pointer can be set on
 * @param left levers of a pass whose first act is done: they are set as well as may be. Before that all are, and an act that would not lower the worst error by a thirtieth is left out.
 */
export function dialPlan(
	model: DialModel,
	fit: DialFit,
	marksHz: readonly number[],
	left: readonly Lever[] | null = null,
): DialPlan {
	const worstNowHz = worstEstimate(model, fit, fit.state);
	const planOf = (levers: readonly Lever[]): DialPlan => {
		const after = bestState(model, fit, levers);
		const acts = actsOf(model, fit.state, after, levers, marksHz);
		return { acts, after, predictedWorstHz: worstEstimate(model, fit, after), worstNowHz };
	};
	if (left) return planOf(left);
	const levers = leversOf(model.ground);
	const both = planOf(levers);
	let chosen = both;
	for (const lever of levers) {
		const alone = planOf([lever]);
		const isSimpler = chosen.acts.length > 1 || alone.predictedWorstHz.value < chosen.predictedWorstHz.value;
		if (alone.predictedWorstHz.value < both.predictedWorstHz.value * 1.03 && isSimpler) chosen = alone;
	}
	if (worstNowHz.value < chosen.predictedWorstHz.value * 1.05) {
		return { acts: [], after: fit.state, predictedWorstHz: worstNowHz, worstNowHz };
	}
	return chosen;
}

/** The mark nearest to a frequency by ratio. */
function nearest(marksHz: readonly number[], wantedHz: number): number {
	const off = (markHz: number): number => Math.abs(Math.log(markHz / wantedHz));
	return marksHz.reduce((best, markHz) => (off(markHz) < off(best) ? markHz : best), marksHz[0] ?? wantedHz);
}

function actsOf(
	model: DialModel,
	from: DialState,
	to: DialState,
	levers: readonly Lever[],
	marksHz: readonly number[],
): readonly DialAct[] {
	const [lowTieHz, , highTieHz] = model.ground.pointsHz;
	const [lowHz, highHz] = [nearest(marksHz, lowTieHz), nearest(marksHz, highTieHz)];
	const acts: DialAct[] = [];
	let state = from;
	for (const lever of levers) {
		const next = { ...state, [lever]: to[lever] };
		const sitAtDialHz = lever === 'trimmerF' || lever === 'pointerM' ? highHz : lowHz;
		const bringInHz = model.heardHz(next, sitAtDialHz);
		acts.push({
			adjuster: adjusterOf[lever],
			sitAtDialHz,
			bringInHz,
			moveByHz: bringInHz - model.heardHz(state, sitAtDialHz),
			slipM: lever === 'pointerM' ? to.pointerM - from.pointerM : null,
		});
		state = next;
	}
	return acts;
}
