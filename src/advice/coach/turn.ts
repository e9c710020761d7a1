import type { Estimate } from '#core/numeric/estimate.ts';
import { type Disturbance, leastToldDb } from './disturbance.ts';
import { scatterDb } from './steadiness.ts';

/** The readings taken while one adjuster is in hand, and what is known of them. */
export interface TurnReadings {
	/** Oldest first. */
	readonly levelsDb: readonly number[];
	readonly aim: 'maximum' | 'minimum';
	/** 5 for a live meter of ten readings a second, 1 for typed readings. */
	readonly framesAveraged: number;
	/** Standard uncertainty that the meter states for one reading. */
	readonly uncertaintyDb: number;
	/** `null` when it was not measured. */
	readonly disturbance: Disturbance | null;
}

/** Where the level goes just now. */
export type Trend = 'rising' | 'falling' | 'steady';

/**
 * What the coach sees. `past`: the level rose to the best and has fallen off it by more than scatter and hand explain; `wrong way`: it fell so from the first;
 * `returning`, then `back` or `start`: it comes up again.
 */
export interface CoachAdvice {
	readonly kind:
		| 'begin'
		| 'first'
		| 'best'
		| 'near'
		| 'past'
		| 'wrong way'
		| 'returning'
		| 'back'
		| 'start'
		| 'nothing changes'
		| 'uncertain';
	/** Decibels off the best so far, 0 or more; `null` before the first reading. */
	readonly offDb: number | null;
	/** The best so far, on the readings' own scale. */
	readonly bestDb: number | null;
	readonly trend: Trend;
	/** A fall of so many decibels is told. */
	readonly toldDb: number;
	/** How far the level has come up to its best, decibels, 0 or more. */
	readonly risenDb: number;
	/** How far beyond the peak, as a share of its half width; `null` while not past it, in a null, and where the best was only the beginning. It holds if the best was the peak. */
	readonly pastHalfWidths: Estimate | null;
}

/** How many of its own uncertainties a fall must have. */
const fallSigmas = 4;
/** Back at the best: within this of it, or two scatters where the meter is noisy. A closer stop makes a hand walk through the peak. */
const stopDb = 0.1;
const stopSigmas = 2;
/** A live reading more uncertain than this tells no fall below a decibel. */
const mostUncertainDb = 0.4;
/** Eight seconds, or four typed readings, without any change. */
const idle = { liveFrames: 80, typedReadings: 4, leastDb: 0.1, sigmas: 3 } as const;
/** A slower move than this in half a second is none that the needle shows. */
const trendDb = 0.05;

/** Running means of so many readings, oldest first. */
function runningMeans(levelsDb: readonly number[], framesAveraged: number): number[] {
	const means: number[] = [];
	let sum = 0;
	for (const [index, levelDb] of levelsDb.entries()) {
		sum += levelDb;
		if (index >= framesAveraged) sum -= levelsDb[index - framesAveraged] as number;
		if (index >= framesAveraged - 1) means.push(sum / framesAveraged);
	}
	return means;
}

function trendOf(means: readonly number[], framesAveraged: number, sigmaDb: number): Trend {
	const now = means.at(-1);
	const before = means.at(-1 - framesAveraged);
	if (now === undefined || before === undefined) return 'steady';
	const limitDb = Math.max(trendDb, 3 * sigmaDb * Math.sqrt(2 / framesAveraged));
	return now - before > limitDb ? 'rising' : before - now > limitDb ? 'falling' : 'steady';
}

/**
 * Walks through the means: the best, how far the level rose to it, how often it fell off it with a return between, and whether it is leaving the best or coming back.
 * A hand that comes back makes no new best by scatter alone, and a hand that rests on its way goes on coming back.
 */
function bestAndFall(means: readonly number[], toldDb: number, toleranceDb: number) {
	let best = Number.NEGATIVE_INFINITY;
	let least = Number.POSITIVE_INFINITY;
	let riseDb = 0;
	let falls = 0;
	let isAway = false;
	let isLeaving = false;
	/** Lowest since it began to leave, or highest since it began to come back. */
	let turnedAt = best;
	for (const mean of means) {
		least = Math.min(least, mean);
		if (mean > best + (falls > 0 ? toleranceDb : 0)) {
			best = mean;
			riseDb = best - least;
			falls = 0;
			isAway = false;
			isLeaving = true;
			turnedAt = mean;
		} else if (best - mean > toldDb) {
			if (!isAway) falls++;
			isAway = true;
		} else if (best - mean <= toleranceDb) isAway = false;
		const turned = isLeaving ? mean - turnedAt : turnedAt - mean;
		if (turned > toleranceDb) isLeaving = !isLeaving;
		if (turned > toleranceDb || turned < 0) turnedAt = mean;
	}
	return { best, riseDb, falls, isAway, isLeaving };
}

/**
 * Distance past a peak in half widths, from the fall off it: at one frequency the level against one adjuster is a resonance curve,
 * 1 + x^2 in power, exactly for coupled circuits too.
 * @example pastPeak(3.0103, 0).value // => ~1.000
 */
export function pastPeak(fallDb: number, uncertaintyDb: number): Estimate {
	const power = 10 ** (fallDb / 10);
	const value = Math.sqrt(Math.max(0, power - 1));
	// d(sqrt(p - 1)) = p / (2 sqrt(p - 1)) ln(10) / 10 dB
	return { value, uncertainty: value === 0 ? null : ((power * Math.LN10) / 20 / value) * uncertaintyDb };
}

/**
 * The coach's view of the readings taken while one adjuster is turned: the mean of the last few against the best such mean.
 * Level alone cannot tell a turn past the peak from a turn the wrong way: "past" is right in both cases, since the way back is the same.
 */
export function coachAdvice({ levelsDb, aim, framesAveraged, uncertaintyDb, disturbance }: TurnReadings): CoachAdvice {
	const isLive = framesAveraged > 1;
	const sigmaDb = Math.max(uncertaintyDb, isLive ? scatterDb(levelsDb.slice(-50)) : 0);
	const meanSigmaDb = sigmaDb * Math.sqrt(2 / framesAveraged);
	const toldDb = Math.max(leastToldDb(disturbance), fallSigmas * meanSigmaDb);
	if (levelsDb.length < framesAveraged)
		return { kind: 'begin', offDb: null, bestDb: null, trend: 'steady', toldDb, risenDb: 0, pastHalfWidths: null };

	const sign = aim === 'maximum' ? 1 : -1;
	const means = runningMeans(levelsDb, framesAveraged);
	const atBestDb = Math.max(stopDb, stopSigmas * sigmaDb);
	const { best, riseDb, falls, isAway, isLeaving } = bestAndFall(
		means.map((mean) => sign * mean),
		toldDb,
		atBestDb,
	);
	const isFallen = falls > 0;
	// The level rose to the best, or falls on both sides of it: what was passed is a peak, and not the place where it began.
	const isPeak = riseDb > toldDb || falls > 1;
	const now = sign * (means.at(-1) as number);
	const offDb = Math.max(0, best - now);
	const trend = trendOf(means, framesAveraged, sigmaDb);
	// Once back, a known peak that is left again is told early; the beginning of a wrong way is not taken for a peak so soon.
	const isLeft = isAway || (isPeak && offDb > toldDb / 2);
	const isPast = isFallen && isLeaving && isLeft && offDb > atBestDb;

	const kind = (): CoachAdvice['kind'] => {
		if (isPast) return isPeak ? 'past' : 'wrong way';
		if (isFallen && offDb <= atBestDb) return isPeak ? 'back' : 'start';
		if (isFallen) return isAway ? 'returning' : 'near';
		if (isLive && sigmaDb > mostUncertainDb) return 'uncertain';
		const idleCount = isLive ? idle.liveFrames : idle.typedReadings;
		const reachDb = Math.max(...means) - Math.min(...means);
		if (levelsDb.length >= idleCount && reachDb <= Math.max(idle.leastDb, idle.sigmas * sigmaDb))
			return 'nothing changes';
		if (levelsDb.length < 2 * framesAveraged) return 'first';
		return offDb <= atBestDb ? 'best' : 'near';
	};
	return {
		kind: kind(),
		offDb,
		bestDb: sign * best,
		trend,
		toldDb,
		risenDb: riseDb,
		pastHalfWidths: isPast && aim === 'maximum' && isPeak ? pastPeak(offDb, meanSigmaDb) : null,
	};
}
