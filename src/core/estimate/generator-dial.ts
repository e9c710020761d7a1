import type { Estimate } from '#core/numeric/estimate.ts';

/** A generator's true frequency at one mark of its dial. */
export interface DialCheck {
	readonly dialHz: number;
	readonly trueHz: number;
	readonly uncertaintyHz: number;
}

/** How the generator stands to the station it beats with. */
export type BeatSide = 'above' | 'below';

/**
 * The generator's frequency when one of its harmonics beats with a station: the station's, plus or minus the beat, by the harmonic's number.
 * @param order of the harmonic, 1 for the generator's own frequency
 * @param side `above` when the beat rises as the generator is tuned up
 * @example frequencyFromBeat(1e6, 2, { value: 700, uncertainty: 2 }, 'above') // => { value: 500350, uncertainty: 1 }
 */
export function frequencyFromBeat(stationHz: number, order: number, beatHz: Estimate, side: BeatSide): Estimate {
	const sign = side === 'above' ? 1 : -1;
	return {
		value: (stationHz + sign * beatHz.value) / order,
		uncertainty: beatHz.uncertainty === null ? null : beatHz.uncertainty / order,
	};
}

/** The generator's error (true less dial) at a mark, between the checks on both sides by proportion. */
interface DialError extends DialCheck {
	readonly errorHz: number;
}

/** What a generator's dial is worth: its error at each check, ascending. */
export interface GeneratorDial {
	readonly checks: readonly DialError[];
	/** How well a mark between the checks is known: what the middle checks miss the line between their neighbours by, rms, hertz; `null` with fewer than three. */
	readonly betweenHz: number | null;
}

/**
 * The correction of a generator's dial from checks at several marks; marks checked more than once are made one.
 * @throws when there is none
 */
export function generatorDial(checks: readonly DialCheck[]): GeneratorDial {
	if (checks.length === 0) throw new Error('invalid checks: none, expected at least one');
	const marks = [...new Set(checks.map(({ dialHz }) => dialHz))].sort((one, other) => one - other);
	const errors = marks.map((dialHz): DialError => {
		const same = checks.filter((check) => check.dialHz === dialHz);
		const weights = same.map(({ uncertaintyHz }) => 1 / Math.max(uncertaintyHz, 1e-3) ** 2);
		const weight = weights.reduce((sum, one) => sum + one, 0);
		const trueHz = same.reduce((sum, check, k) => sum + check.trueHz * (weights[k] as number), 0) / weight;
		return { dialHz, trueHz, uncertaintyHz: 1 / Math.sqrt(weight), errorHz: trueHz - dialHz };
	});
	const misses = errors.slice(1, -1).map((middle, k) => {
		const low = errors[k] as DialError;
		const high = errors[k + 2] as DialError;
		const share = (middle.dialHz - low.dialHz) / (high.dialHz - low.dialHz);
		return middle.errorHz - (low.errorHz + share * (high.errorHz - low.errorHz));
	});
	return {
		checks: errors,
		betweenHz:
			misses.length === 0 ? null : Math.sqrt(misses.reduce((sum, miss) => sum + miss * miss, 0) / misses.length),
	};
}

/**
 * Where the dial has to stand for a wanted frequency; `null` beyond the outermost checks.
 * Between two checks, the farther from both the less it is known.
 */
export function dialFor({ checks, betweenHz }: GeneratorDial, wantedHz: number): Estimate | null {
	const at = checks.findIndex((low, k) => {
		const high = checks[k + 1];
		return high !== undefined && low.trueHz <= wantedHz && wantedHz <= high.trueHz;
	});
	const low = checks[at];
	const high = checks[at + 1];
	if (!low || !high) return null;
	const share = (wantedHz - low.trueHz) / (high.trueHz - low.trueHz);
	const checkHz = Math.hypot((1 - share) * low.uncertaintyHz, share * high.uncertaintyHz);
	return {
		value: low.dialHz + share * (high.dialHz - low.dialHz),
		// A bend between two checks is greatest half way: 4 s (1 - s) of what the middle checks missed by, a quarter of it since the gap is half as wide.
		uncertainty: betweenHz === null ? null : Math.hypot(checkHz, betweenHz * share * (1 - share)),
	};
}
