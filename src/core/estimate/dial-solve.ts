/** One belief fitted to a dial's readings by least squares, every unknown held to its prior. */
import { invertedSymmetric } from '#core/numeric/symmetric-factor.ts';
import { symmetricSolve } from '#core/numeric/symmetric-solve.ts';
import type { DialPrior } from './dial-belief.ts';
import { type DialModel, type DialState, hasPadder, type Lever, leversOf } from './dial-model.ts';

/** How often each lever was turned before a reading. */
export type Turned = Readonly<Partial<Record<Lever, number>>>;

/** One reading: with the pointer on a mark, what came in. */
export interface DialPoint {
	readonly dialHz: number;
	readonly heardHz: number;
	/** Of the frequency that came in: generator, peak and last digit. */
	readonly heardUncertaintyHz: number;
	/** Counted from 0; levers are turned between passes, all else stays. */
	readonly pass: number;
	/** Each lever as often as the pass says, where not given. */
	readonly turned?: Turned;
	/** What a lever brought in while the pointer stood where it stood for the point before: how it was set does not matter between the two. */
	readonly isPointerHeld?: boolean;
}

/** How often a lever was turned before a reading. */
export function turnsBefore({ turned, pass }: DialPoint, lever: Lever): number {
	return turned?.[lever] ?? pass;
}

/** What an act brought in at the mark where a reading was just taken, the pointer left as it was. */
export function broughtIn(now: DialPoint, levers: readonly Lever[], turned: Lever, heardHz: number): DialPoint {
	const turns = levers.map((lever) => [lever, turnsBefore(now, lever) + (lever === turned ? 1 : 0)]);
	return { ...now, heardHz, turned: Object.fromEntries(turns) as Turned, isPointerHeld: true };
}

/** How often each lever was turned before the latest of the readings. */
export function latestTurned(levers: readonly Lever[], points: readonly DialPoint[]): Turned {
	const most = (lever: Lever): number => Math.max(...points.map((point) => turnsBefore(point, lever)));
	return Object.fromEntries(levers.map((lever) => [lever, most(lever)])) as Turned;
}

/** How well the assumed circuit foretells what a fault of some size does, as a share of it (chosen): a dial that is far off teaches less than one that is near. */
const modelShare = 0.03;

/** Names of what is fitted, in order; a lever is unknown anew after each turn, the rest stays as it is. */
export type Unknown =
	| { readonly key: keyof Omit<DialState, 'platesF'>; readonly turns: number | null }
	| { readonly key: 'platesF'; readonly quarter: 0 | 1 | 2 | 3 };

function unknownsOf({ ground }: DialModel, latest: Turned): readonly Unknown[] {
	const keys = [
		'pointerM',
		'ifOffHz',
		...(hasPadder(ground) ? (['straysF', 'padderShare'] as const) : []),
		'coilShare',
	] as const;
	const levers = leversOf(ground);
	return [
		...keys.flatMap((key) => (levers.some((lever) => lever === key) ? [] : [{ key, turns: null }])),
		...([0, 1, 2, 3] as const).map((quarter) => ({ key: 'platesF' as const, quarter })),
		...levers.flatMap((key) => Array.from({ length: (latest[key] ?? 0) + 1 }, (_, turns) => ({ key, turns }))),
	];
}

/** An unknown that a state has, its levers turned so often. */
export function isOf(unknown: Unknown, turned: Turned): boolean {
	return !('turns' in unknown) || unknown.turns === null || unknown.turns === turned[unknown.key as Lever];
}

/** The state with its levers turned so often, from unknowns counted in standard deviations of the prior. */
export function stateOf(
	unknowns: readonly Unknown[],
	deviations: ArrayLike<number>,
	prior: DialPrior,
	turned: Turned,
): DialState {
	const platesF: [number, number, number, number] = [0, 0, 0, 0];
	const single = { trimmerF: 0, padderShare: 0, coilShare: 0, pointerM: 0, ifOffHz: 0, straysF: 0 };
	for (const [place, unknown] of unknowns.entries()) {
		const size = (deviations[place] as number) * prior[unknown.key];
		if (unknown.key === 'platesF') platesF[unknown.quarter] = size;
		else if (isOf(unknown, turned)) single[unknown.key] = size;
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

/** A reading in the sums: what it belongs to, what it says and how much that weighs. */
interface Row {
	readonly dialHz: number;
	readonly heardHz: number;
	readonly weight: number;
	/** Of its state among the states. */
	readonly place: number;
	/** The reading from which it is counted, the pointer not moved since. */
	readonly since: Row | null;
}

/** Readings as rows, and the distinct turns of their levers. */
function rowsOf(model: DialModel, points: readonly DialPoint[]): { rows: readonly Row[]; states: readonly Turned[] } {
	const levers = leversOf(model.ground);
	const states: Turned[] = [];
	const rows: Row[] = [];
	for (const [k, point] of points.entries()) {
		const { dialHz, heardHz, heardUncertaintyHz } = point;
		const turned = latestTurned(levers, [point]);
		let place = states.findIndex((one) => levers.every((lever) => one[lever] === turned[lever]));
		if (place < 0) place = states.push(turned) - 1;
		const before = points[k - 1];
		const since = point.isPointerHeld === true ? (rows[k - 1] ?? null) : null;
		const setHz = since ? (before?.heardUncertaintyHz ?? 0) : model.scale.slopeHzPerM(dialHz) * model.ground.readingM;
		const farHz = modelShare * (heardHz - (since?.heardHz ?? dialHz));
		rows.push({ dialHz, heardHz, weight: 1 / Math.hypot(setHz, heardUncertaintyHz, farHz), place, since });
	}
	return { rows, states };
}

/** Fits one belief. */
export function solveBelief(model: DialModel, points: readonly DialPoint[], prior: DialPrior): Solved {
	const unknowns = unknownsOf(model, latestTurned(leversOf(model.ground), points));
	const count = unknowns.length;
	const { rows, states: turns } = rowsOf(model, points);
	let deviations = new Float64Array(count);
	const statesOf = (at: ArrayLike<number>): readonly DialState[] =>
		turns.map((turned) => stateOf(unknowns, at, prior, turned));
	const offHz = (states: readonly DialState[], { heardHz, dialHz, place }: Row): number =>
		heardHz - model.heardHz(states[place] as DialState, dialHz);
	const miss = (states: readonly DialState[], row: Row): number =>
		(offHz(states, row) - (row.since ? offHz(states, row.since) : 0)) * row.weight;
	const misses = (at: ArrayLike<number>): number[] => {
		const states = statesOf(at);
		return rows.map((row) => miss(states, row));
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
			const isMoved = turns.map((turned) => isOf(unknown, turned));
			// A lever's turn does not move what was read before it or after the next.
			return rows.map((row, k) =>
				isMoved[row.place] || (row.since && isMoved[row.since.place])
					? (miss(states, row) - (here[k] as number)) / 1e-4
					: 0,
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
