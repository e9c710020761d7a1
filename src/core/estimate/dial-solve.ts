/** One belief fitted to a dial's readings by least squares, every unknown held to its prior. */
import { invertedSymmetric } from '#core/numeric/symmetric-factor.ts';
import { symmetricSolve } from '#core/numeric/symmetric-solve.ts';
import type { DialPrior } from './dial-belief.ts';
import type { DialModel, DialState } from './dial-model.ts';

/** One reading: with the pointer on a mark, what came in. */
export interface DialPoint {
	readonly dialHz: number;
	readonly heardHz: number;
	/** Of the frequency that came in: generator, peak and last digit. */
	readonly heardUncertaintyHz: number;
	/** Counted from 0; adjusters are turned between passes, all else stays. */
	readonly pass: number;
}

/** How well the assumed circuit foretells what a fault of some size does, as a share of it (chosen): a dial that is far off teaches less than one that is near. */
const modelShare = 0.03;

/** Names of what is fitted, in order; trimmer and low end belong to a pass, the rest to the set. */
export type Unknown =
	| { readonly key: keyof Omit<DialState, 'platesF'>; readonly pass: number | null }
	| { readonly key: 'platesF'; readonly quarter: 0 | 1 | 2 | 3 };

function unknownsOf(model: DialModel, passes: number): readonly Unknown[] {
	const { lowEnd, hasCutPlates, side } = model.ground;
	const perPass: (keyof Omit<DialState, 'platesF'>)[] = ['trimmerF'];
	const fixed: (keyof Omit<DialState, 'platesF'>)[] = ['pointerM', 'ifOffHz'];
	const hasPadder = !hasCutPlates && side === 'above';
	if (hasPadder) fixed.push('straysF');
	if (hasPadder) (lowEnd === 'padder' ? perPass : fixed).push('padderShare');
	(lowEnd === 'slug' ? perPass : fixed).push('coilShare');
	return [
		...fixed.map((key) => ({ key, pass: null })),
		...([0, 1, 2, 3] as const).map((quarter) => ({ key: 'platesF' as const, quarter })),
		...Array.from({ length: passes }, (_, pass) => perPass.map((key) => ({ key, pass }))).flat(),
	];
}

/** The state of a pass from unknowns counted in standard deviations of the prior. */
export function stateOf(
	unknowns: readonly Unknown[],
	deviations: ArrayLike<number>,
	prior: DialPrior,
	pass: number,
): DialState {
	const platesF: [number, number, number, number] = [0, 0, 0, 0];
	const single = { trimmerF: 0, padderShare: 0, coilShare: 0, pointerM: 0, ifOffHz: 0, straysF: 0 };
	for (const [place, unknown] of unknowns.entries()) {
		const size = (deviations[place] as number) * prior[unknown.key];
		if (unknown.key === 'platesF') platesF[unknown.quarter] = size;
		else if (unknown.pass === null || unknown.pass === pass) single[unknown.key] = size;
	}
	return { ...single, platesF };
}

/** A belief fitted. */
export interface Solved {
	readonly unknowns: readonly Unknown[];
	readonly prior: DialPrior;
	readonly deviations: Float64Array;
	/** Row by row, in standard deviations of the prior. */
	readonly covariance: Float64Array;
	/** Logarithm of how well this prior foretold the readings, up to a constant. */
	readonly logEvidence: number;
}

/** Fits one belief. */
export function solveBelief(model: DialModel, points: readonly DialPoint[], prior: DialPrior, passes: number): Solved {
	const unknowns = unknownsOf(model, passes);
	const count = unknowns.length;
	const weights = points.map(({ dialHz, heardHz, heardUncertaintyHz }) => {
		const pointerHz = model.scale.slopeHzPerM(dialHz) * model.ground.readingM;
		return 1 / Math.hypot(pointerHz, heardUncertaintyHz, modelShare * (heardHz - dialHz));
	});
	let deviations = new Float64Array(count);
	const statesOf = (at: ArrayLike<number>): readonly DialState[] =>
		Array.from({ length: passes }, (_, pass) => stateOf(unknowns, at, prior, pass));
	const miss = (states: readonly DialState[], { dialHz, heardHz, pass }: DialPoint, place: number): number =>
		(heardHz - model.heardHz(states[pass] as DialState, dialHz)) * (weights[place] as number);
	const misses = (at: ArrayLike<number>): number[] => {
		const states = statesOf(at);
		return points.map((point, k) => miss(states, point, k));
	};
	const cost = (at: Float64Array): number =>
		misses(at).reduce((sum, one) => sum + one * one, 0) + at.reduce((sum, one) => sum + one * one, 0);
	let normal = new Float64Array(count * count);
	for (let round = 0; round < 12; round++) {
		const here = misses(deviations);
		const slopes = unknowns.map((unknown, place) => {
			const moved = Float64Array.from(deviations);
			moved[place] = (moved[place] as number) + 1e-4;
			const states = statesOf(moved);
			const ofPass = 'pass' in unknown ? unknown.pass : null;
			// What belongs to one pass does not move the readings of another.
			return points.map((point, k) =>
				ofPass !== null && ofPass !== point.pass ? 0 : (miss(states, point, k) - (here[k] as number)) / 1e-4,
			);
		});
		normal = new Float64Array(count * count);
		const right = new Float64Array(count);
		for (let i = 0; i < count; i++) {
			const own = slopes[i] as number[];
			for (let j = 0; j <= i; j++) {
				const sum = own.reduce(
					(total, slope, k) => total + slope * ((slopes[j] as number[])[k] as number),
					i === j ? 1 : 0,
				);
				normal[i * count + j] = sum;
				normal[j * count + i] = sum;
			}
			right[i] = -own.reduce((total, slope, k) => total + slope * (here[k] as number), 0) - (deviations[i] as number);
		}
		const step = symmetricSolve(normal, right);
		const before = cost(deviations);
		let share = 1;
		let next = deviations;
		for (; share > 1e-3; share /= 2) {
			const tried = deviations.map((value, place) => value + share * (step[place] as number));
			if (cost(tried) <= before) {
				next = tried;
				break;
			}
		}
		const moved = Math.max(...next.map((value, place) => Math.abs(value - (deviations[place] as number))));
		deviations = next;
		if (moved < 1e-4) break;
	}
	const { inverse, logDeterminant } = invertedSymmetric(normal, count);
	return { unknowns, prior, deviations, covariance: inverse, logEvidence: -(cost(deviations) + logDeterminant) / 2 };
}
