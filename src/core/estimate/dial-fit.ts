/** Who is at fault: a dial's errors fitted by all that may be wrong at once, each held to what is usual, weighted by the pointer's reading error. */
import type { Estimate } from '#core/numeric/estimate.ts';
import { lowerFactor } from '#core/numeric/symmetric-factor.ts';
import { beliefsOf, type Culprit } from './dial-belief.ts';
import { type DialGround, DialModel, type DialState, hasPadder, leversOf, soundState } from './dial-model.ts';
import {
	type DialPoint,
	isOf,
	latestTurned,
	type Solved,
	solveBelief,
	stateOf,
	type Turned,
	turnsBefore,
	type Unknown,
} from './dial-solve.ts';

/** Errors at several marks. */
export interface DialErrors {
	readonly errors: readonly Estimate[];
	/** All of them moved together by one draw of what is not known; `normal` gives deviates of one standard deviation. */
	drawnHz(normal: () => number): readonly number[];
}

/** The fit of a dial. */
export interface DialFit {
	/** The set as it stands at the latest reading. */
	readonly state: DialState;
	/** One standard deviation of each. */
	readonly uncertainty: DialState;
	/** Errors at marks for a state near the fitted one, with what is not known of them. */
	errorsOf(state: DialState, dialsHz: readonly number[]): DialErrors;
	/** What bent plates do to the error at a mark. */
	platesAt(dialHz: number): Estimate;
	/** What alone would explain the readings, with how likely that is and the set as it then stands, most likely first. */
	readonly alone: readonly { readonly culprit: Culprit; readonly share: number; readonly state: DialState }[];
	/** Logarithm of how well the assumptions foretold the readings, up to a constant: more is better. */
	readonly logEvidence: number;
}

/** A belief in one culprit that is likelier than this is taken for the answer by itself (chosen): it is the simplest that explains the readings. */
const believedShare = 0.4;

/**
 * Fits a dial's readings under each belief of what the set is like; the answer is their mean, weighed by how well each foretold the readings, or one culprit alone when that is likely.
 * @param points at least two, of passes counted from 0 without gaps
 */
export function fitDial(model: DialModel, points: readonly DialPoint[]): DialFit {
	const latest = latestTurned(leversOf(model.ground), points);
	const tried = beliefsOf(model.ground.lowEnd).map((belief) => {
		const solved = solveBelief(model, points, belief.prior);
		return { belief, answer: inUnits(solved), log: Math.log(belief.share) + solved.logEvidence };
	});
	const most = Math.max(...tried.map(({ log }) => log));
	const whole = tried.reduce((sum, { log }) => sum + Math.exp(log - most), 0);
	const weighed = tried.map(({ belief, answer, log }) => ({ belief, answer, share: Math.exp(log - most) / whole }));
	const alone = weighed
		.flatMap(({ belief: { culprit }, answer, share }) =>
			culprit === null ? [] : [{ culprit, share, state: stateOf(answer.unknowns, answer.mean, unitPrior, latest) }],
		)
		.sort((one, other) => other.share - one.share);
	const single = weighed.find(({ belief, share }) => belief.culprit !== null && share > believedShare);
	return {
		...dialFit(model, mixture(weighed, single?.answer.mean), latest),
		alone,
		logEvidence: most + Math.log(whole),
	};
}

/** The fit without what the beliefs alone say. */
type ModelFit = Omit<DialFit, 'alone' | 'logEvidence'>;

interface Answer {
	readonly unknowns: readonly Unknown[];
	/** In the units of the state. */
	readonly mean: Float64Array;
	readonly covariance: Float64Array;
}

/** Mean and covariance in the units of the state. */
function inUnits({ unknowns, deviations, covariance, prior }: Solved): Answer {
	const sizes = unknowns.map(({ key }) => prior[key]);
	return {
		unknowns,
		mean: deviations.map((value, place) => value * (sizes[place] as number)),
		covariance: covariance.map((value, place) => {
			const row = Math.floor(place / sizes.length);
			return value * (sizes[row] as number) * (sizes[place % sizes.length] as number);
		}),
	};
}

/** Several answers, each right with its share, as one: their mean, or the place that is believed, and how far the truth may be from it. */
function mixture(
	weighed: readonly { readonly answer: Answer; readonly share: number }[],
	believed?: Float64Array,
): Answer {
	const unknowns = weighed[0]?.answer.unknowns ?? [];
	const size = unknowns.length;
	const mean =
		believed ??
		Float64Array.from({ length: size }, (_, i) =>
			weighed.reduce((sum, { answer, share }) => sum + share * (answer.mean[i] as number), 0),
		);
	const covariance = new Float64Array(size * size);
	for (const { answer, share } of weighed) {
		const off = answer.mean.map((value, i) => value - (mean[i] as number));
		for (let i = 0; i < size; i++) {
			for (let j = 0; j < size; j++) {
				const own = (answer.covariance[i * size + j] as number) + (off[i] as number) * (off[j] as number);
				covariance[i * size + j] = (covariance[i * size + j] as number) + share * own;
			}
		}
	}
	return { unknowns, mean, covariance };
}

const unitPrior = {
	trimmerF: 1,
	padderShare: 1,
	coilShare: 1,
	pointerM: 1,
	ifOffHz: 1,
	straysF: 1,
	platesF: 1,
};

/** In a first pass the other place of the trimmer is believed only when the readings speak for it this much better (chosen); once it was turned between passes, they know. */
const firstPassLog = Math.log(3);

/** The fit of readings that agrees best: with the trimmer where it was said to sit, or at the other place when the readings speak clearly for that. */
export function fitEitherNetwork(
	ground: DialGround,
	points: readonly DialPoint[],
): { readonly model: DialModel; readonly fit: DialFit } {
	const given = new DialModel(ground);
	const own = { model: given, fit: fitDial(given, points) };
	if (!hasPadder(ground)) return own;
	const model = new DialModel({ ...ground, network: ground.network === 'gang' ? 'coil' : 'gang' });
	const other = { model, fit: fitDial(model, points) };
	const doubt = points.some((point) => leversOf(ground).some((lever) => turnsBefore(point, lever) > 0))
		? 0
		: firstPassLog;
	return other.fit.logEvidence > own.fit.logEvidence + doubt ? other : own;
}

function dialFit(model: DialModel, { unknowns, mean, covariance }: Answer, latest: Turned): ModelFit {
	const size = unknowns.length;
	const deviation = (place: number): number => Math.sqrt(Math.max(covariance[place * size + place] as number, 0));
	const state = stateOf(unknowns, mean, unitPrior, latest);
	const deviations = Float64Array.from(mean, (_, place) => deviation(place));
	/** How a state's error at a mark goes with each unknown, for one standard deviation of it. */
	const slopesHz = (at: DialState, dialHz: number): readonly number[] =>
		unknowns.map((unknown, place) => {
			const own = deviation(place);
			if (own === 0 || !isOf(unknown, latest)) return 0;
			const moved =
				unknown.key === 'platesF'
					? {
							...at,
							platesF: at.platesF.map((one, k) =>
								k === unknown.quarter ? one + own : one,
							) as unknown as DialState['platesF'],
						}
					: { ...at, [unknown.key]: at[unknown.key] + own };
			return model.errorHz(moved, dialHz) - model.errorHz(at, dialHz);
		});
	const correlation = new Float64Array(size * size);
	for (let i = 0; i < size; i++)
		for (let j = 0; j < size; j++) {
			const both = deviation(i) * deviation(j);
			correlation[i * size + j] = both > 0 ? (covariance[i * size + j] as number) / both : 0;
		}
	const lower = lowerFactor(correlation, size);
	return {
		state,
		uncertainty: stateOf(unknowns, deviations, unitPrior, latest),
		errorsOf: (at, dialsHz) => {
			const slopes = dialsHz.map((dialHz) => slopesHz(at, dialHz));
			const errors = dialsHz.map((dialHz, k) => {
				const variance = quadratic(correlation, slopes[k] as readonly number[]);
				return { value: model.errorHz(at, dialHz), uncertainty: Math.sqrt(Math.max(variance, 0)) };
			});
			return {
				errors,
				drawnHz: (normal) => {
					const deviates = Array.from({ length: size }, normal);
					const moved = deviates.map((_, row) =>
						deviates.reduce((sum, one, column) => sum + (lower[row * size + column] as number) * one, 0),
					);
					return errors.map(({ value }, k) =>
						(slopes[k] as readonly number[]).reduce(
							(sum, slope, place) => sum + slope * (moved[place] as number),
							value,
						),
					);
				},
			};
		},
		platesAt: (dialHz) => {
			const slopes = slopesHz(state, dialHz).map((slope, k) => (unknowns[k]?.key === 'platesF' ? slope : 0));
			const flat = { ...state, platesF: soundState.platesF };
			const variance = quadratic(correlation, slopes);
			return {
				value: model.errorHz(state, dialHz) - model.errorHz(flat, dialHz),
				uncertainty: Math.sqrt(Math.max(variance, 0)),
			};
		},
	};
}

/** s' M s. */
function quadratic(matrix: Float64Array, slopes: readonly number[]): number {
	return slopes.reduce(
		(sum, one, row) =>
			sum +
			one *
				slopes.reduce((inner, other, column) => inner + other * (matrix[row * slopes.length + column] as number), 0),
		0,
	);
}
