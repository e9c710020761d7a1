import type { Estimate } from '#core/numeric/estimate.ts';

/** A generator's true frequency at one mark of its dial, from a zero beat or a counter. */
export interface DialCheck {
	readonly dialHz: number;
	readonly trueHz: number;
	/** Of the pair: how finely dial and beat were read. */
	readonly uncertaintyHz: number;
	/** Seconds since it was made. */
	readonly ageS: number;
}

/** A service generator's own accuracy where nothing was checked: few are better than 1 %, [eddystone-659]. */
const uncheckedShare = 0.01;
/** How far a correction may wander in a year (chosen: a tenth of what an unchecked one may be off). */
const yearShare = 0.001;
const yearS = 365 * 86_400;
/** A check is worth less away from its place: a factor of two from it is as good as unchecked (chosen). */
const reach = Math.log(2);

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

/** Share by which a whistle may miss what its harmonic moves it by (chosen: the harmonic next to the wanted one moves it by a third less, a warming generator by some cycles). */
const movesShare = 0.25;

/**
 * By how many cycles a harmonic moves its whistle with a station while the generator's dial is turned up, where the whistle did not move so; `null` where it did.
 * Another whistle is told by it: of another harmonic, or of a generator's own frequency that gets straight into the IF of the set.
 * @param fromHz pitch before, `toHz` after; it may have passed zero beat between
 * @param turnedHz by how much the dial was turned up, known to `uncertaintyHz`
 */
export function missedMoveHz(
	order: number,
	{ fromHz, toHz }: { readonly fromHz: number; readonly toHz: number },
	turnedHz: number,
	uncertaintyHz: number,
): number | null {
	const wantedHz = order * turnedHz;
	const missHz = Math.min(Math.abs(Math.abs(toHz - fromHz) - wantedHz), Math.abs(toHz + fromHz - wantedHz));
	return missHz > Math.max(movesShare * wantedHz, 3 * order * uncertaintyHz) ? wantedHz : null;
}

/** What checks of one mark come to. */
interface CheckedMark {
	readonly dialHz: number;
	readonly trueHz: number;
	/** Wander since the checks counted in. */
	readonly uncertaintyHz: number;
	/** True less dial. */
	readonly errorHz: number;
}

/** What a generator's dial is worth: its checked marks, ascending. */
export interface GeneratorDial {
	readonly marks: readonly CheckedMark[];
	/** How well a frequency between the marks is known: what the middle marks miss the line between their neighbours by, rms, hertz; `null` with fewer than three. */
	readonly betweenHz: number | null;
}

/** Where a dial frequency lies between two marks, 0 to 1; 0 where they are one. */
function shareBetween(low: CheckedMark, high: CheckedMark, dialHz: number): number {
	return high === low ? 0 : (dialHz - low.dialHz) / (high.dialHz - low.dialHz);
}

/** What the dial gives between two marks, its error going from one's to the other's; beyond a single one in the same ratio. */
function trueBetween(low: CheckedMark, high: CheckedMark, dialHz: number): number {
	if (high === low) return (dialHz * low.trueHz) / low.dialHz;
	const share = shareBetween(low, high, dialHz);
	return dialHz + (1 - share) * low.errorHz + share * high.errorHz;
}

/** The correction of a generator's dial from checks in any order; marks checked more than once are made one, the better known check counting more. */
export function generatorDial(checks: readonly DialCheck[]): GeneratorDial {
	const places = [...new Set(checks.map(({ dialHz }) => dialHz))].sort((one, other) => one - other);
	const marks = places.map((dialHz): CheckedMark => {
		const same = checks.filter((check) => check.dialHz === dialHz);
		const weights = same.map(
			({ uncertaintyHz, ageS }) =>
				1 / Math.max(Math.hypot(uncertaintyHz, (dialHz * yearShare * ageS) / yearS), 1e-3) ** 2,
		);
		const weight = weights.reduce((sum, one) => sum + one, 0);
		const trueHz = same.reduce((sum, check, k) => sum + check.trueHz * (weights[k] as number), 0) / weight;
		return { dialHz, trueHz, uncertaintyHz: 1 / Math.sqrt(weight), errorHz: trueHz - dialHz };
	});
	const misses = marks.slice(1, -1).map(({ dialHz, trueHz }, k) => {
		const [low, high] = [marks[k] as CheckedMark, marks[k + 2] as CheckedMark];
		return trueHz - trueBetween(low, high, dialHz);
	});
	const square = misses.reduce((sum, miss) => sum + miss * miss, 0);
	return { marks, betweenHz: misses.length === 0 ? null : Math.sqrt(square / misses.length) };
}

/** How well the correction is known at a place. Between two marks, the farther from both the less. */
function uncertaintyAt({ betweenHz }: GeneratorDial, low: CheckedMark, high: CheckedMark, dialHz: number): number {
	const share = shareBetween(low, high, dialHz);
	const markHz = Math.hypot((1 - share) * low.uncertaintyHz, share * high.uncertaintyHz);
	// A bend between two marks is greatest half way: 4 s (1 - s) of what the middle marks missed by, a quarter of it since the gap is half as wide.
	if (betweenHz !== null && low !== high) return Math.hypot(markHz, betweenHz * share * (1 - share));
	const away = Math.min(Math.abs(Math.log(dialHz / low.dialHz)), Math.abs(Math.log(high.dialHz / dialHz))) / reach;
	return Math.hypot(markHz, dialHz * uncheckedShare * Math.min(away, 1));
}

/** What the generator really gives where its dial says `dialHz`. Beyond the outermost mark its correction stays in proportion; without any the dial is believed, with what service generators are worth. */
export function trueFor(dial: GeneratorDial, dialHz: number): Estimate {
	const below = dial.marks.findLast((mark) => mark.dialHz <= dialHz);
	const above = dial.marks.find((mark) => mark.dialHz >= dialHz);
	const [low, high] = [below ?? above, above ?? below];
	if (!low || !high) return { value: dialHz, uncertainty: dialHz * uncheckedShare };
	return {
		value: trueBetween(low, high, dialHz),
		uncertainty: uncertaintyAt(dial, low, high, dialHz),
	};
}

/** Where the dial has to stand for a wanted frequency: the other way round of `trueFor`. `null` without any check. */
export function dialFor(dial: GeneratorDial, wantedHz: number): Estimate | null {
	const below = dial.marks.findLast(({ trueHz }) => trueHz <= wantedHz);
	const above = dial.marks.find(({ trueHz }) => trueHz >= wantedHz);
	const [low, high] = [below ?? above, above ?? below];
	if (!low || !high) return null;
	const dialHz =
		high.trueHz > low.trueHz
			? low.dialHz + ((wantedHz - low.trueHz) / (high.trueHz - low.trueHz)) * (high.dialHz - low.dialHz)
			: (wantedHz * low.dialHz) / low.trueHz;
	return { value: dialHz, uncertainty: uncertaintyAt(dial, low, high, dialHz) };
}

/** A frequency lies between the outermost checks. */
export function isWithinChecks({ marks }: GeneratorDial, wantedHz: number): boolean {
	const [first, last] = [marks[0], marks.at(-1)];
	return first !== undefined && last !== undefined && first.trueHz <= wantedHz && wantedHz <= last.trueHz;
}
