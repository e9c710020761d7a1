/** A point of a curve with what is known of its level; ascending in frequency. */
export interface CurvePoint {
	readonly frequencyHz: number;
	readonly levelDb: number;
	/** Standard uncertainty that the point itself gives, such as half its last digit; `null` when none. */
	readonly uncertaintyDb: number | null;
}

/** How readings scatter about the true curve. */
export interface LevelNoise {
	/** Standard uncertainty of a level reading well above the noise. */
	readonly meterDb: number;
	/** Power of the noise floor under the skirts, below the curve's highest level; `null` when none is seen. */
	readonly floorBelowPeakDb: number | null;
	/** Standard uncertainty of each frequency as set. */
	readonly generatorHz: number;
}

const decibelsPerNeper = 20 / Math.LN10;

/** E1(x) for x > 0: the polynomial below 1 and the quotient above it, within 5e-5 [abramowitz-stegun] eqs. 5.1.53 and 5.1.54. */
function exponentialIntegral(x: number): number {
	if (x < 1) {
		const polynomial = [-0.57721566, 0.99999193, -0.24991055, 0.05519968, -0.00976004, 0.00107857];
		return polynomial.reduceRight((sum, coefficient) => sum * x + coefficient, 0) - Math.log(x);
	}
	const quotient = (x * x + 2.334733 * x + 0.250621) / (x * x + 3.330657 * x + 1.681534);
	return (quotient * Math.exp(-x)) / x;
}

/** What a noise floor does to one level. */
interface FloorShare {
	/** How much the floor lifts the reading in the mean. */
	readonly liftDb: number;
	/** Scatter of the reading about that. */
	readonly scatterDb: number;
	/** How much a change of the true level still changes the reading, 0 to 1. */
	readonly share: number;
}

/**
 * Lift and scatter of a level that noise is added to: Rice's law in decibels, exact but for the fits named here.
 * K is the level's power over the noise's. The mean of ln(r^2) is ln(K) + E1(K) and its slope 1 - exp(-K); its variance is a sum over Poisson's law of K, which the quotient meets within 1 per cent of scatter at any K.
 */
function floorShare(noise: LevelNoise, belowPeakDb: number): FloorShare {
	if (noise.floorBelowPeakDb === null) return { liftDb: 0, scatterDb: 0, share: 1 };
	const power = 10 ** ((noise.floorBelowPeakDb - belowPeakDb) / 10);
	const x = 0.5 / power;
	const variance = (x * (1 + x * (3.29 + 7.01 * x))) / (1 + x * (1.41 + x * (9.78 + (7.01 * 24 * x) / Math.PI ** 2)));
	return {
		liftDb: (decibelsPerNeper / 2) * exponentialIntegral(power),
		scatterDb: decibelsPerNeper * Math.sqrt(variance),
		share: -Math.expm1(-power),
	};
}

/** How much the noise floor lifts the reading of a level so far below the highest, in decibels. */
export function floorLiftDb(noise: LevelNoise, belowPeakDb: number): number {
	return floorShare(noise, belowPeakDb).liftDb;
}

function readingSigmaDb(noise: LevelNoise, point: CurvePoint, belowPeakDb: number, slopeDbPerHz: number): number {
	const own = Math.max(noise.meterDb, point.uncertaintyDb ?? 0);
	return Math.hypot(own, floorShare(noise, belowPeakDb).scatterDb, slopeDbPerHz * noise.generatorHz);
}

/**
 * Standard uncertainty in decibels with which one reading tells the true level: the meter's own, the floor's where the curve is near it, and the generator's through the slope.
 * @param belowPeakDb how far the true level is below the highest
 */
export function levelSigmaDb(noise: LevelNoise, point: CurvePoint, belowPeakDb: number, slopeDbPerHz: number): number {
	return readingSigmaDb(noise, point, belowPeakDb, slopeDbPerHz) / floorShare(noise, belowPeakDb).share;
}

/** Whether a point stands so near the floor that its level says little: less than 10 dB above it. */
export function isNearFloor(noise: LevelNoise, belowPeakDb: number): boolean {
	return noise.floorBelowPeakDb !== null && noise.floorBelowPeakDb - belowPeakDb < 10;
}

/** Floors that are tried, below the highest level. */
const floorsDb: readonly (number | null)[] = [null, ...Array.from({ length: 66 }, (_, index) => 25 + index)];

/**
 * The noise floor under which the residuals of a fitted curve are most likely, below its highest level; `null` when none is needed.
 * A floor has to gain 3 in log likelihood over none.
 * @param residualsDb reading minus curve
 * @param parameterCount number of parameters that the curve was fitted with: its residuals are the smaller for it
 * @param belowPeakDb how far the curve is below its highest level, point by point
 */
export function likeliestFloorDb(
	noise: LevelNoise,
	points: readonly CurvePoint[],
	residualsDb: ArrayLike<number>,
	belowPeakDb: ArrayLike<number>,
	slopesDbPerHz: ArrayLike<number>,
	parameterCount: number,
): number | null {
	const left = points.length / Math.max(1, points.length - parameterCount);
	let best: number | null = null;
	let bestScore = Number.POSITIVE_INFINITY;
	for (const floorBelowPeakDb of floorsDb) {
		let score = floorBelowPeakDb === null ? 0 : 6;
		for (const [index, point] of points.entries()) {
			const below = belowPeakDb[index] as number;
			const tried = { ...noise, floorBelowPeakDb };
			const sigmaDb = readingSigmaDb(tried, point, below, slopesDbPerHz[index] as number);
			const share = ((residualsDb[index] as number) - floorLiftDb(tried, below)) / sigmaDb;
			score += left * share * share + 2 * Math.log(sigmaDb);
		}
		if (score < bestScore) {
			bestScore = score;
			best = floorBelowPeakDb;
		}
	}
	return best;
}

/**
 * Standard uncertainty of a level reading from the scatter of neighbouring points about cubics, in decibels; `null` when there are fewer than nine points in the upper 30 dB.
 * Structure finer than three points counts as scatter, so it is never too small for a curve that was measured coarsely.
 */
export function scatterDb(points: readonly CurvePoint[]): number | null {
	const peakDb = Math.max(...points.map(({ levelDb }) => levelDb));
	const high = points.filter(({ levelDb }) => levelDb > peakDb - 30);
	if (high.length < 9) return null;
	const squares: number[] = [];
	for (let start = 0; start + 4 < high.length; start++) {
		const five = high.slice(start, start + 5);
		// Lagrange's weights of the fourth difference on any spacing.
		const weights = five.map((point, at) =>
			five.reduce(
				(product, other, place) => (place === at ? product : product * (point.frequencyHz - other.frequencyHz)),
				1,
			),
		);
		if (weights.some((weight) => weight === 0)) continue;
		const largest = Math.max(...weights.map((weight) => 1 / Math.abs(weight)));
		const shares = weights.map((weight) => 1 / weight / largest);
		const difference = five.reduce((sum, { levelDb }, at) => sum + (shares[at] as number) * levelDb, 0);
		squares.push((difference * difference) / shares.reduce((sum, share) => sum + share * share, 0));
	}
	if (squares.length < 5) return null;
	squares.sort((one, other) => one - other);
	// The median of chi-squared of one degree is 0.4549: robust against a bump.
	const middle = squares[squares.length >> 1] as number;
	return Math.max(0.01, Math.sqrt(middle / 0.4549));
}
