import { covarianceOf } from '#core/numeric/least-squares.ts';
import { offModelDb } from './fit-gate.ts';
import { type CurvePoint, isNearFloor, type LevelNoise, levelSigmaDb } from './level-noise.ts';
import {
	isUnusual,
	jointModel,
	type NudgeGround,
	type NudgeRow,
	noiseUnder,
	priorCount,
	sizeOf,
	still,
	type TurnBelief,
	usualFeedback,
	weighedBy,
} from './nudge-model.ts';
import {
	bySum,
	type Candidate,
	distinct,
	farthestApart,
	followed,
	groundAfter,
	refined,
	searchStrips,
	tuningsAfter,
} from './nudge-search.ts';
import type { PoleFit, SweepConditions } from './pole-fit.ts';
import { stripPlaces } from './strip-model.ts';
import { fedIdeas, stripIdeas } from './strip-start.ts';

/** One turn of one adjuster, left in place, and the points read after it. */
export interface Nudge {
	/** `null`: nothing was turned, the strip was only read again. A winding beside a nudged one may be called `partner of NAME`. */
	readonly name: string | null;
	readonly points: readonly CurvePoint[];
	/** How far its circuit was meant to go, in hertz, where the adjuster was set to a mark; one point is then enough. */
	readonly aimedHz?: number;
}

/** A strip of two coupled pairs as its base sweep and its nudges tell it. */
export interface StripFit {
	/** Strip parameters before the nudges, then the turns, the gain, and the drift of each nudge's sweep. */
	readonly parameters: Float64Array;
	readonly covariance: Float64Array;
	/** Circuit that each nudge turned, 0 to 3; -1 where nothing was turned. */
	readonly circuits: readonly number[];
	readonly chiSquaredPerDegree: number;
	readonly degrees: number;
	/** Other strips that fit nearly as well, within 9 in chi-squared, and put some circuit more than 1.5 kc elsewhere. */
	readonly others: readonly StripFit[];
}

/** The strip with two of its circuits in each other's place, their nudges with them. */
function exchanged({ circuits, fit }: Candidate, one: number, other: number): Candidate {
	const parameters = Float64Array.from(fit.parameters);
	for (const block of [stripPlaces.tuning, stripPlaces.halfWidth]) {
		parameters[block + one] = fit.parameters[block + other] as number;
		parameters[block + other] = fit.parameters[block + one] as number;
	}
	const placeOf = (circuit: number): number => (circuit === one ? other : circuit === other ? one : circuit);
	return { circuits: circuits.map(placeOf), fit: { ...fit, parameters } };
}

/**
 * The strip as it is and as it might be mistaken for: either winding of a can may be the one beside the tube, which only feedback tells, and a partner may belong to the other can.
 */
function likenesses(strip: Candidate): readonly Candidate[] {
	const first = exchanged(strip, 0, 1);
	return [strip, first, exchanged(strip, 2, 3), exchanged(first, 2, 3), exchanged(strip, 0, 2), exchanged(strip, 0, 3)];
}

/** How far the strips lie from each other to count as the same, and from the best to count as ambiguous, in hertz. */
const sameHz = 300;
const otherHz = 1500;

/** Drift between sweeps that is allowed for, in decibels: references are read again (chosen). */
const driftDb = 0.02;

/** A nudge may be of any size, over the IF; a setting goes as far as was meant within a kilocycle at 455 kc and a quarter (chosen). */
const anyTurn = 0.1;
const settingSpread = { least: 0.0022, share: 0.25 } as const;

function turnBelief({ name, aimedHz }: Nudge, ifHz: number): TurnBelief {
	if (name === null) return { centre: 0, spread: 1e-7 };
	if (aimedHz === undefined) return { centre: 0, spread: anyTurn };
	const centre = aimedHz / ifHz;
	return { centre, spread: Math.hypot(settingSpread.least, settingSpread.share * centre) };
}

/** Slope of a skirt that stands for all until the strip is known, in decibels per hertz (chosen). */
const usualSlopeDbPerHz = 1e-3;

/** How much a fit has to be worse than its readings' scatter for a wider search, in chi-squared per reading (chosen). */
const doubtful = 1.3;

/** Feedback that a wider search supposes. */
const feedbacksTried = [0.5e-4, 1.2e-4] as const;

function rowsOf(
	sweeps: readonly (readonly CurvePoint[])[],
	noise: LevelNoise,
	peakDb: number,
	ifHz: number,
): NudgeRow[] {
	return sweeps.flatMap((points, sweep) =>
		points.map((point) => {
			const belowDb = peakDb - point.levelDb;
			const tooLow = noise.floorBelowPeakDb !== null && belowDb > noise.floorBelowPeakDb - 6;
			return {
				sweep,
				point,
				ratio: point.frequencyHz / ifHz,
				sigmaDb: tooLow ? 1e3 : levelSigmaDb(noise, point, belowDb, usualSlopeDbPerHz),
				liftDb: 0,
				isNearFloor: isNearFloor(noise, belowDb),
			};
		}),
	);
}

function finished({ circuits, fit }: Candidate, ground: NudgeGround, others: readonly StripFit[]): StripFit {
	const turnCount = ground.turns.length;
	const residuals = new Float64Array(ground.rows.length + priorCount(turnCount));
	const slopes = new Float64Array(residuals.length * sizeOf(turnCount));
	jointModel(ground, circuits)(fit.parameters, residuals, slopes);
	let sum = 0;
	let counted = 0;
	for (const [index, row] of ground.rows.entries()) {
		if (row.isNearFloor) continue;
		sum += (residuals[index] as number) ** 2;
		counted++;
	}
	// Drifts and the turns of nothing are believed, not fitted.
	const believed = turnCount + circuits.filter((circuit) => circuit === still).length;
	const degrees = Math.max(1, counted - sizeOf(turnCount) + believed);
	return {
		parameters: fit.parameters,
		covariance: covarianceOf(fit.normal),
		circuits,
		chiSquaredPerDegree: sum / degrees,
		degrees,
		others,
	};
}

/** The search for a strip over one set of readings, their weights getting better as it goes on. */
class StripSearch {
	#ground: NudgeGround;
	#noise: LevelNoise;
	readonly #peakDb: number;
	#candidates: readonly Candidate[] = [];

	constructor(ground: NudgeGround, noise: LevelNoise, peakDb: number) {
		this.#ground = ground;
		this.#noise = noise;
		this.#peakDb = peakDb;
	}

	get #best(): Candidate {
		return this.#candidates[0] as Candidate;
	}

	#isMisfit({ fit }: Candidate): boolean {
		return fit.sum > doubtful * this.#ground.rows.length;
	}

	/** Whether a wider search is worth its time. */
	get isDoubtful(): boolean {
		return this.#isMisfit(this.#best) || isUnusual(this.#best.fit.parameters);
	}

	/**
	 * Weighs the readings by the best strip, and takes the floor from all sweeps where it fits.
	 * While it does not the base sweep's own floor stands: that sweep is a product of resonances whatever the strip, and a floor raised to cover a misfit would hide it.
	 */
	#weigh(): void {
		const { circuits, fit } = this.#best;
		this.#ground = weighedBy(this.#ground, this.#noise, this.#peakDb, fit.parameters, circuits);
		const weighed = this.#again(this.#best);
		if (this.#isMisfit(weighed)) return;
		this.#noise = noiseUnder(this.#ground, this.#noise, this.#peakDb, weighed.fit.parameters, circuits);
		this.#ground = weighedBy(this.#ground, this.#noise, this.#peakDb, weighed.fit.parameters, circuits);
	}

	#again(candidate: Candidate): Candidate {
		return refined(this.#ground, candidate.circuits, candidate.fit.parameters, 40);
	}

	/** Looks for strips that may have this feedback, carrying so many on from nudge to nudge, and keeps the best of all that were found so far. */
	look(base: PoleFit, nudges: readonly Nudge[], feedback: number, carried: number): void {
		const { ifHz } = this.#ground.conditions;
		const supposed = feedback === 0 ? usualFeedback : { centre: feedback, spread: 1e-6 };
		const ideas = feedback === 0 ? stripIdeas(base.parameters) : fedIdeas(base.parameters);
		const names = nudges.map(({ name }) => name);
		const leading = nudges.findIndex(({ name, aimedHz }) => name === null || aimedHz !== undefined);
		const first = leading < 0 ? names.length : leading;
		const ground = { ...groundAfter(this.#ground, first), feedback: supposed };
		const found = searchStrips(ground, ideas, names.slice(0, first), carried)
			.slice(0, 6)
			.map((strip) => followed(this.#ground, strip, names));
		this.#candidates = [...this.#candidates, ...found].map((one) => this.#again(one)).sort(bySum);
		this.#weigh();
		const [best, ...rest] = distinct(this.#candidates, sameHz / ifHz).slice(0, 4);
		if (!best) return;
		this.#candidates = [...likenesses(best), ...rest].map((one) => this.#again(one)).sort(bySum);
	}

	finish(): StripFit {
		const { ifHz } = this.#ground.conditions;
		const winner = this.#best;
		this.#weigh();
		const last = this.#again(winner);
		const places = tuningsAfter(last);
		const others = distinct(this.#candidates, sameHz / ifHz).filter(
			(candidate) =>
				candidate.fit.sum - winner.fit.sum < 9 && farthestApart(tuningsAfter(candidate), places) * ifHz > otherHz,
		);
		return finished(
			last,
			this.#ground,
			others.map((candidate) => finished(candidate, this.#ground, [])),
		);
	}
}

/**
 * The strip that fits a base sweep and all that was read after each turn together: turns unknown, each left in place. The first ones are nudges.
 * @param base resonances of the base sweep, from its own fit
 * @param basePoints the base sweep
 * @param nudges one or more, in the order they were made, the levels on the base sweep's scale
 */
export function fitNudges(
	base: PoleFit,
	basePoints: readonly CurvePoint[],
	nudges: readonly Nudge[],
	conditions: SweepConditions,
): StripFit {
	const noise = { ...base.noise, meterDb: Math.max(base.noise.meterDb, offModelDb.strip) };
	const peakDb = Math.max(...basePoints.map(({ levelDb }) => levelDb));
	const sweeps = [basePoints, ...nudges.map(({ points }) => points)];
	const rows = rowsOf(sweeps, noise, peakDb, conditions.ifHz);
	const turns = nudges.map((nudge) => turnBelief(nudge, conditions.ifHz));
	const ground = { rows, turns, conditions, driftDb, feedback: usualFeedback };
	const search = new StripSearch(ground, noise, peakDb);
	search.look(base, nudges, 0, 16);
	// Feedback may mislead the first ideas, which leave it out.
	for (const feedback of feedbacksTried) if (search.isDoubtful) search.look(base, nudges, feedback, 40);
	return search.finish();
}
