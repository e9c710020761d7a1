import type { ResidualModel } from '#core/numeric/least-squares.ts';
import {
	type CurvePoint,
	floorLiftDb,
	isNearFloor,
	type LevelNoise,
	levelSigmaDb,
	likeliestFloorDb,
} from './level-noise.ts';
import type { SweepConditions } from './pole-fit.ts';
import { levelFunction } from './response-model.ts';
import { stripModel, stripPlaces } from './strip-model.ts';

/** What is taken for granted: Q about 80 and coupling about critical, each within a factor of 2; feedback up to some thousandths of a picofarad (chosen; common practice for IF transformers). */
const usual = {
	halfWidth: Math.log(1 / 160),
	halfWidthSpread: 0.7,
	coupling: Math.log(1 / 80),
	couplingSpread: 0.7,
} as const;

/** Feedback of any strip: up to some thousandths of a picofarad. */
export const usualFeedback = { centre: 0, spread: 1.5e-4 } as const;

/** How far a fit may go against what is taken for granted before it is doubted, in standard deviations (chosen: each of its seven once in twenty by chance). */
const mostStrain = 2;

/** Whether a strip's width, coupling or feedback is one that is hardly ever met. */
export function isUnusual(parameters: Float64Array): boolean {
	const strains = [
		...[0, 1, 2, 3].map(
			(place) => ((parameters[stripPlaces.halfWidth + place] as number) - usual.halfWidth) / usual.halfWidthSpread,
		),
		...[0, 1].map(
			(place) => ((parameters[stripPlaces.coupling + place] as number) - usual.coupling) / usual.couplingSpread,
		),
		(parameters[stripPlaces.feedback] as number) / usualFeedback.spread,
	];
	return strains.some((strain) => Math.abs(strain) > mostStrain);
}

/** What is believed of a turn before any reading: how far it took the circuit, as a share of the IF. */
export interface TurnBelief {
	readonly centre: number;
	readonly spread: number;
}

/** The circuit of a sweep before which nothing was turned. */
export const still = -1;

/** One reading of the base sweep (sweep 0) or of the sweep after a turn, with its weight. */
export interface NudgeRow {
	readonly sweep: number;
	readonly point: CurvePoint;
	readonly ratio: number;
	readonly sigmaDb: number;
	readonly liftDb: number;
	readonly isNearFloor: boolean;
}

/** What a fit of nudges stands on. */
export interface NudgeGround {
	readonly rows: readonly NudgeRow[];
	/** One of each sweep after the base. */
	readonly turns: readonly TurnBelief[];
	readonly conditions: SweepConditions;
	readonly driftDb: number;
	/** What is believed of the feedback before any reading. */
	readonly feedback: { readonly centre: number; readonly spread: number };
}

/** Number of parameters: strip, turns, gain, drifts. */
export const sizeOf = (nudgeCount: number): number => stripPlaces.size + 2 * nudgeCount + 1;
/** Number of rows of what is taken for granted. */
export const priorCount = (nudgeCount: number): number => 7 + 2 * nudgeCount;

/** Residuals of all sweeps together; parameters are the strip before the nudges, the turns, the gain, the drift of each nudge's sweep. */
export function jointModel(
	{ rows, turns, conditions, driftDb, feedback }: NudgeGround,
	circuits: readonly number[],
): ResidualModel {
	const nudgeCount = turns.length;
	const model = stripModel();
	const level = levelFunction(model, conditions.toneHz / conditions.ifHz);
	const out = new Float64Array(model.size + 1);
	const size = sizeOf(nudgeCount);
	const gainPlace = model.size + nudgeCount;
	const strips = Array.from({ length: nudgeCount + 1 }, () => new Float64Array(model.size));
	return (parameters, residuals, slopes) => {
		for (const [sweep, strip] of strips.entries()) {
			strip.set(parameters.subarray(0, model.size));
			for (let nudge = 0; nudge < sweep; nudge++) {
				const circuit = circuits[nudge] as number;
				if (circuit === still) continue;
				strip[circuit] = (strip[circuit] as number) + (parameters[model.size + nudge] as number);
			}
		}
		slopes.fill(0);
		for (let index = 0; index < rows.length; index++) {
			const { sweep, point, ratio, sigmaDb, liftDb } = rows[index] as NudgeRow;
			level(strips[sweep] as Float64Array, ratio, out);
			const drift = sweep === 0 ? 0 : (parameters[gainPlace + sweep] as number);
			residuals[index] =
				(point.levelDb - liftDb - (out[0] as number) - (parameters[gainPlace] as number) - drift) / sigmaDb;
			const at = index * size;
			for (let place = 0; place < model.size; place++) slopes[at + place] = -(out[1 + place] as number) / sigmaDb;
			for (let nudge = 0; nudge < sweep; nudge++) {
				const circuit = circuits[nudge] as number;
				slopes[at + model.size + nudge] = circuit === still ? 0 : -(out[1 + circuit] as number) / sigmaDb;
			}
			slopes[at + gainPlace] = -1 / sigmaDb;
			if (sweep > 0) slopes[at + gainPlace + sweep] = -1 / sigmaDb;
		}
		const belief = (row: number, place: number, centre: number, spread: number): void => {
			residuals[rows.length + row] = ((parameters[place] as number) - centre) / spread;
			slopes[(rows.length + row) * size + place] = 1 / spread;
		};
		for (let place = 0; place < 4; place++)
			belief(place, stripPlaces.halfWidth + place, usual.halfWidth, usual.halfWidthSpread);
		belief(4, stripPlaces.coupling, usual.coupling, usual.couplingSpread);
		belief(5, stripPlaces.coupling + 1, usual.coupling, usual.couplingSpread);
		// A capacity between grid and plate cannot be negative: below nought the belief is thirty times as strong.
		const isNegative = (parameters[stripPlaces.feedback] as number) < 0;
		belief(
			6,
			stripPlaces.feedback,
			isNegative ? 0 : feedback.centre,
			isNegative ? feedback.spread / 30 : feedback.spread,
		);
		for (const [nudge, { centre, spread }] of turns.entries()) {
			belief(7 + 2 * nudge, model.size + nudge, centre, spread);
			belief(8 + 2 * nudge, gainPlace + 1 + nudge, 0, driftDb);
		}
	};
}

/** Strips before any nudge and after each. */
function stripsOf(parameters: Float64Array, circuits: readonly number[]): Float64Array[] {
	const strips = [parameters.slice(0, stripPlaces.size)];
	for (const [nudge, circuit] of circuits.entries()) {
		const next = Float64Array.from(strips[nudge] as Float64Array);
		if (circuit !== still) next[circuit] = (next[circuit] as number) + (parameters[stripPlaces.size + nudge] as number);
		strips.push(next);
	}
	return strips;
}

/** Levels of the rows under fitted parameters, and slopes in decibels per hertz. */
function curveOf({ conditions, rows, turns }: NudgeGround, parameters: Float64Array, circuits: readonly number[]) {
	const level = levelFunction(stripModel(), conditions.toneHz / conditions.ifHz);
	const out = new Float64Array(stripPlaces.size + 1);
	const strips = stripsOf(parameters, circuits);
	const gainPlace = stripPlaces.size + turns.length;
	const step = 20 / conditions.ifHz;
	const at = (sweep: number, ratio: number): number => {
		level(strips[sweep] as Float64Array, ratio, out);
		return (
			(parameters[gainPlace] as number) +
			(sweep === 0 ? 0 : (parameters[gainPlace + sweep] as number)) +
			(out[0] as number)
		);
	};
	return {
		levelsDb: rows.map(({ sweep, ratio }) => at(sweep, ratio)),
		slopesDbPerHz: rows.map(({ sweep, ratio }) => (at(sweep, ratio + step) - at(sweep, ratio - step)) / 40),
	};
}

/** The rows weighed anew by the levels and slopes that fitted parameters give. */
export function weighedBy(
	ground: NudgeGround,
	noise: LevelNoise,
	peakDb: number,
	parameters: Float64Array,
	circuits: readonly number[],
): NudgeGround {
	const { levelsDb, slopesDbPerHz } = curveOf(ground, parameters, circuits);
	const rows = ground.rows.map((row, index) => {
		const belowDb = peakDb - (levelsDb[index] as number);
		return {
			...row,
			sigmaDb: levelSigmaDb(noise, row.point, belowDb, slopesDbPerHz[index] as number),
			liftDb: floorLiftDb(noise, belowDb),
			isNearFloor: isNearFloor(noise, belowDb),
		};
	});
	return { ...ground, rows };
}

/** The noise with the floor that all sweeps together make likeliest under fitted parameters. */
export function noiseUnder(
	ground: NudgeGround,
	noise: LevelNoise,
	peakDb: number,
	parameters: Float64Array,
	circuits: readonly number[],
): LevelNoise {
	const { levelsDb, slopesDbPerHz } = curveOf(ground, parameters, circuits);
	const points = ground.rows.map(({ point }) => point);
	const residualsDb = points.map(({ levelDb }, row) => levelDb - (levelsDb[row] as number));
	const belowDb = levelsDb.map((levelDb) => peakDb - levelDb);
	const fitted = sizeOf(ground.turns.length) - ground.turns.length;
	return {
		...noise,
		floorBelowPeakDb: likeliestFloorDb(noise, points, residualsDb, belowDb, slopesDbPerHz, fitted),
	};
}
