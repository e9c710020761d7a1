import { covarianceOf, leastSquares, type ResidualModel } from '#core/numeric/least-squares.ts';
import { createRandom } from '#core/numeric/random.ts';
import {
	type CurvePoint,
	floorLiftDb,
	isNearFloor,
	type LevelNoise,
	levelSigmaDb,
	likeliestFloorDb,
} from './level-noise.ts';
import { levelFunction, resonanceModel } from './response-model.ts';

/** What a sweep was taken with. */
export interface SweepConditions {
	/** Aimed intermediate frequency. */
	readonly ifHz: number;
	/** Tone that the level is of; 0 for the carrier itself. */
	readonly toneHz: number;
	/** Standard uncertainty of a level reading. */
	readonly meterDb: number;
	/** Standard uncertainty of each frequency as set. */
	readonly generatorHz: number;
}

/** A strip's curve as a product of single resonances. */
export interface PoleFit {
	/** Tunings f / IF - 1 and then logarithms of g / IF, one of each a resonance; see the model of resonances. */
	readonly parameters: Float64Array;
	/** Covariance of the parameters, rows of 2 n; `null` where the readings do not fix them all. */
	readonly covariance: Float64Array | null;
	readonly gainDb: number;
	readonly noise: LevelNoise;
	/** Squared residuals over their variance and degrees of freedom, points near the noise floor left out. */
	readonly chiSquaredPerDegree: number;
	readonly degrees: number;
	/** How strongly neighbouring residuals go together, in standard deviations of what chance gives: a curve that the model cannot have leaves them in rows of one sign, whatever the meter is said to be worth. */
	readonly followsOn: number;
	/** Root mean square of what the fit leaves of the readings, in decibels. */
	readonly leftDb: number;
	/** Number of resonances. */
	readonly count: number;
}

interface Weighted {
	readonly points: readonly CurvePoint[];
	readonly ratios: Float64Array;
	readonly sigmaDb: Float64Array;
	/** What the noise floor adds to each reading. */
	readonly liftDb: Float64Array;
}

/** What is taken for granted of any strip: tunings within some 20 kc of the IF, Q about 80 within a factor of 2; weak beside any sweep, and it keeps a resonance that a sweep does not show from running away (chosen). */
const usual = { tuningSpread: 0.04, halfWidth: Math.log(1 / 160), halfWidthSpread: 0.7 } as const;
/** Until the floor is known the skirts say nothing, and what is usual has to stand for them. */
const close = { ...usual, tuningSpread: 0.02, halfWidthSpread: 0.4 } as const;

/** The gain leaves the problem by projection: what a gain could explain is taken out of residuals and slopes. */
function projectedModel(
	{ points, ratios, sigmaDb, liftDb }: Weighted,
	count: number,
	toneRatio: number,
	belief: typeof usual | typeof close,
): ResidualModel {
	const model = resonanceModel(count);
	const level = levelFunction(model, toneRatio);
	const size = model.size;
	const out = new Float64Array(size + 1);
	const weights = sigmaDb.map((sigma) => 1 / (sigma * sigma));
	const whole = weights.reduce((sum, weight) => sum + weight, 0);
	return (parameters, residuals, slopes) => {
		const mean = new Float64Array(size + 1);
		for (let row = 0; row < points.length; row++) {
			level(parameters, ratios[row] as number, out);
			const weight = (weights[row] as number) / whole;
			residuals[row] = (points[row] as CurvePoint).levelDb - (liftDb[row] as number) - (out[0] as number);
			mean[0] = (mean[0] as number) + weight * (residuals[row] as number);
			for (let place = 0; place < size; place++) {
				slopes[row * size + place] = -(out[1 + place] as number);
				mean[1 + place] = (mean[1 + place] as number) - weight * (out[1 + place] as number);
			}
		}
		for (let row = 0; row < points.length; row++) {
			const sigma = sigmaDb[row] as number;
			residuals[row] = ((residuals[row] as number) - (mean[0] as number)) / sigma;
			for (let place = 0; place < size; place++)
				slopes[row * size + place] = ((slopes[row * size + place] as number) - (mean[1 + place] as number)) / sigma;
		}
		for (let place = 0; place < size; place++) {
			const row = points.length + place;
			const spread = place < count ? belief.tuningSpread : belief.halfWidthSpread;
			residuals[row] = ((parameters[place] as number) - (place < count ? 0 : belief.halfWidth)) / spread;
			slopes.fill(0, row * size, (row + 1) * size)[row * size + place] = 1 / spread;
		}
	};
}

/** Levels and slopes of a parameter set at the points, and the gain that fits best. */
function curveAt(parameters: ArrayLike<number>, weighted: Weighted, count: number, conditions: SweepConditions) {
	const level = levelFunction(resonanceModel(count), conditions.toneHz / conditions.ifHz);
	const out = new Float64Array(2 * count + 1);
	const levelsDb = new Float64Array(weighted.points.length);
	const slopesDbPerHz = new Float64Array(weighted.points.length);
	const step = 20 / conditions.ifHz;
	let whole = 0;
	let gainDb = 0;
	for (const [row, { levelDb }] of weighted.points.entries()) {
		const ratio = weighted.ratios[row] as number;
		level(parameters, ratio + step, out);
		const above = out[0] as number;
		level(parameters, ratio - step, out);
		slopesDbPerHz[row] = (above - (out[0] as number)) / 40;
		level(parameters, ratio, out);
		levelsDb[row] = out[0] as number;
		const weight = 1 / (weighted.sigmaDb[row] as number) ** 2;
		whole += weight;
		gainDb += weight * (levelDb - (weighted.liftDb[row] as number) - (out[0] as number));
	}
	gainDb /= whole;
	let highestDb = Number.NEGATIVE_INFINITY;
	const first = weighted.ratios[0] as number;
	const last = weighted.ratios.at(-1) as number;
	for (let at = 0; at <= 200; at++) {
		level(parameters, first + ((last - first) * at) / 200, out);
		highestDb = Math.max(highestDb, out[0] as number);
	}
	return { levelsDb, slopesDbPerHz, gainDb, belowPeakDb: levelsDb.map((levelDb) => highestDb - levelDb) };
}

/** Starting points: resonances spread by seeded chance over the band where the curve is high. */
function starts(points: readonly CurvePoint[], count: number, ifHz: number, number: number): Float64Array[] {
	const peakDb = Math.max(...points.map(({ levelDb }) => levelDb));
	const high = points.filter(({ levelDb }) => levelDb > peakDb - 14);
	const low = (high[0] as CurvePoint).frequencyHz / ifHz - 1;
	const width = Math.max(0.004, (high.at(-1) as CurvePoint).frequencyHz / ifHz - 1 - low);
	const { uniform } = createRandom(1);
	return Array.from({ length: number }, (_, index) => {
		const half = Math.log(Math.max(0.002, Math.min(0.012, width * (0.15 + 0.35 * uniform()))));
		const tunings = Array.from({ length: count }, (_, place) =>
			index === 0 ? low + (width * (place + 0.5)) / count : low - 0.1 * width + 1.2 * width * uniform(),
		).sort((one, other) => one - other);
		return Float64Array.from([...tunings, ...tunings.map(() => half + 0.4 * (uniform() - 0.5))]);
	});
}

/** Number of starting points; of a trial's 200 random strips the least successful kind found its minimum from 18 % of starts. */
const startCount = 14;

function weighed(
	points: readonly CurvePoint[],
	ratios: Float64Array,
	noise: LevelNoise,
	belowPeakDb: ArrayLike<number>,
	slopesDbPerHz: ArrayLike<number>,
): Weighted {
	return {
		points,
		ratios,
		sigmaDb: Float64Array.from(points, (point, row) =>
			levelSigmaDb(noise, point, belowPeakDb[row] as number, slopesDbPerHz[row] as number),
		),
		liftDb: Float64Array.from(points, (_, row) => floorLiftDb(noise, belowPeakDb[row] as number)),
	};
}

/**
 * The resonances whose product fits a sweep best, by projection of the gain and many starts; the noise floor of the skirts is found with them.
 * @param points ascending in frequency, more than 2 * count + 1
 * @param count number of resonances, 4 for two double-tuned transformers
 */
export function fitPoles(points: readonly CurvePoint[], conditions: SweepConditions, count = 4): PoleFit {
	const first = fitFrom(points, conditions, count, 0);
	if (first.chiSquaredPerDegree < 1.4) return first;
	// A first guess of the floor that was too low misleads: one 8 dB higher is tried.
	const second = fitFrom(points, conditions, count, 8);
	return second.chiSquaredPerDegree < first.chiSquaredPerDegree ? second : first;
}

/** @param shyDb how much higher than it seems the floor is first taken */
function fitFrom(points: readonly CurvePoint[], conditions: SweepConditions, count: number, shyDb: number): PoleFit {
	const { ifHz, toneHz, meterDb, generatorHz } = conditions;
	const ratios = Float64Array.from(points, ({ frequencyHz }) => frequencyHz / ifHz);
	const peakDb = Math.max(...points.map(({ levelDb }) => levelDb));
	// Until the floor is known it is taken where it would be if the lowest tenth of the levels were noise (Rayleigh's law: 10 dB under its power), and points near it count next to nothing.
	const lowestDb = [...points.map(({ levelDb }) => levelDb)].sort((one, other) => one - other)[
		Math.floor(points.length / 10)
	] as number;
	const guessDb = Math.max(20, peakDb - lowestDb - 10 - shyDb);
	const seenDb = points.map(({ levelDb }) => peakDb - levelDb);
	let noise: LevelNoise = { meterDb, generatorHz, floorBelowPeakDb: guessDb };
	let weighted = weighed(points, ratios, noise, seenDb, new Float64Array(points.length));
	weighted.liftDb.fill(0);
	for (const [row, belowDb] of seenDb.entries()) if (belowDb > guessDb - 6) weighted.sigmaDb[row] = 1e3;
	const model = projectedModel(weighted, count, toneHz / ifHz, close);
	const rough = starts(points, count, ifHz, startCount)
		.map((start) => leastSquares(model, start, points.length + 2 * count, 10))
		.sort((one, other) => one.sum - other.sum)
		.slice(0, 4)
		.map(({ parameters }) => leastSquares(model, parameters, points.length + 2 * count, 40))
		.sort((one, other) => one.sum - other.sum);
	let best = rough[0] as (typeof rough)[number];
	for (let round = 0; round < 4; round++) {
		const curve = curveAt(best.parameters, weighted, count, conditions);
		const residualsDb = points.map(({ levelDb }, row) => levelDb - curve.gainDb - (curve.levelsDb[row] as number));
		noise = {
			...noise,
			floorBelowPeakDb: likeliestFloorDb(
				noise,
				points,
				residualsDb,
				curve.belowPeakDb,
				curve.slopesDbPerHz,
				2 * count + 1,
			),
		};
		weighted = weighed(points, ratios, noise, curve.belowPeakDb, curve.slopesDbPerHz);
		best = leastSquares(
			projectedModel(weighted, count, toneHz / ifHz, round < 2 ? close : usual),
			best.parameters,
			points.length + 2 * count,
			40,
		);
	}
	return finished(best, weighted, noise, count, conditions);
}

/** Sum of neighbours' products over the sum of squares, times the root of their number; residuals count for 3 at most, so that a noise floor's rare deep readings do not decide. */
function followsOn(residuals: readonly number[]): number {
	const held = residuals.map((residual) => Math.max(-3, Math.min(3, residual)));
	let together = 0;
	let squares = 1e-12;
	for (const [row, residual] of held.entries()) {
		squares += residual * residual;
		if (row > 0) together += residual * (held[row - 1] as number);
	}
	return (together / squares) * Math.sqrt(residuals.length);
}

function finished(
	best: ReturnType<typeof leastSquares>,
	weighted: Weighted,
	noise: LevelNoise,
	count: number,
	conditions: SweepConditions,
): PoleFit {
	const curve = curveAt(best.parameters, weighted, count, conditions);
	const residuals = weighted.points.map(
		({ levelDb }, row) =>
			(levelDb - curve.gainDb - (weighted.liftDb[row] as number) - (curve.levelsDb[row] as number)) /
			(weighted.sigmaDb[row] as number),
	);
	const counting = residuals.filter((_, row) => !isNearFloor(noise, curve.belowPeakDb[row] as number));
	const sum = counting.reduce((total, residual) => total + residual * residual, 0);
	const degrees = Math.max(1, counting.length - 2 * count - 1);
	let covariance: Float64Array | null;
	try {
		covariance = covarianceOf(best.normal);
	} catch {
		covariance = null;
	}
	return {
		parameters: best.parameters,
		covariance,
		gainDb: curve.gainDb,
		noise,
		chiSquaredPerDegree: sum / degrees,
		degrees,
		followsOn: followsOn(residuals),
		leftDb: Math.sqrt(
			residuals.reduce((sum, residual, row) => sum + (residual * (weighted.sigmaDb[row] as number)) ** 2, 0) /
				residuals.length,
		),
		count,
	};
}
