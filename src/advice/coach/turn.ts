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
 * What the coach sees. `past`: the level has fallen off the best by more than scatter and hand explain; `returning` and `back`: it was past and comes up again.
 */
export interface CoachAdvice {
	readonly kind: 'begin' | 'first' | 'best' | 'near' | 'past' | 'returning' | 'back' | 'nothing changes' | 'uncertain';
	/** Decibels off the best so far, 0 or more; `null` before the first reading. */
	readonly offDb: number | null;
	/** The best so far, on the readings' own scale. */
	readonly bestDb: number | null;
	readonly trend: Trend;
	/** A fall of so many decibels is told. */
	readonly toldDb: number;
	/** How far beyond the peak, as a share of its half width; `null` while not past it, in a null, and where nothing rose to the best. It holds if the best was the peak. */
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

/** Walks through the means: the best, how far the level rose to it, and whether it has fallen since. A hand that comes back makes no new best by scatter alone. */
function bestAndFall(means: readonly number[], toldDb: number, toleranceDb: number) {
	let best = Number.NEGATIVE_INFINITY;
	let least = Number.POSITIVE_INFINITY;
	let riseDb = 0;
	let isFallen = false;
	for (const mean of means) {
		least = Math.min(least, mean);
		if (mean > best + (isFallen ? toleranceDb : 0)) {
			best = mean;
			riseDb = best - least;
			isFallen = false;
		} else if (best - mean > toldDb) isFallen = true;
	}
	return { best, riseDb, isFallen };
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
		return { kind: 'begin', offDb: null, bestDb: null, trend: 'steady', toldDb, pastHalfWidths: null };

	const sign = aim === 'maximum' ? 1 : -1;
	const means = runningMeans(levelsDb, framesAveraged);
	const atBestDb = Math.max(stopDb, stopSigmas * sigmaDb);
	const { best, riseDb, isFallen } = bestAndFall(
		means.map((mean) => sign * mean),
		toldDb,
		atBestDb,
	);
	const now = sign * (means.at(-1) as number);
	const offDb = Math.max(0, best - now);
	const trend = trendOf(means, framesAveraged, sigmaDb);
	const isLeaving = trend === (aim === 'maximum' ? 'falling' : 'rising');
	const isPast = isFallen && (offDb > toldDb || (isLeaving && offDb > atBestDb));

	const kind = (): CoachAdvice['kind'] => {
		if (isPast) return trend === 'steady' || isLeaving || !isLive ? 'past' : 'returning';
		if (isFallen) return offDb <= atBestDb ? 'back' : 'returning';
		if (isLive && sigmaDb > mostUncertainDb) return 'uncertain';
		const idleCount = isLive ? idle.liveFrames : idle.typedReadings;
		const reachDb = Math.max(...means) - Math.min(...means);
		if (levelsDb.length >= idleCount && reachDb <= Math.max(idle.leastDb, idle.sigmas * sigmaDb))
			return 'nothing changes';
		if (levelsDb.length < 2 * framesAveraged) return 'first';
		return offDb === 0 ? 'best' : 'near';
	};
	return {
		kind: kind(),
		offDb,
		bestDb: sign * best,
		trend,
		toldDb,
		pastHalfWidths: isPast && aim === 'maximum' && riseDb > toldDb ? pastPeak(offDb, meanSigmaDb) : null,
	};
}
