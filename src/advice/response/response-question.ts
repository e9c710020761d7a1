import type { Aim } from '#core/estimate/aim.ts';
import type { AvcLaw } from '#core/estimate/avc-law.ts';
import type { CurvePoint } from '#core/estimate/level-noise.ts';
import type { Nudge } from '#core/estimate/nudge-fit.ts';
import type { IfStripFacts } from '#record/if-strip.ts';

/** What is asked of a measured IF curve. */
export interface ResponseQuestion {
	/** Ascending in frequency, at least five frequencies. */
	readonly base: readonly CurvePoint[];
	/** What was turned and read since, in its order, each turn left in place: first the nudges, then settings, and sweeps without a turn as proof. */
	readonly nudges: readonly Nudge[];
	/** The base sweep again with the generator 6 dB weaker or stronger. */
	readonly second: readonly CurvePoint[] | null;
	readonly ifHz: number;
	/** Tone that the levels are of; 0 for the carrier. */
	readonly toneHz: number;
	/** Standard uncertainty of a level reading; `null`: from the scatter of the readings. */
	readonly meterDb: number | null;
	/** Standard uncertainty of each frequency as set. */
	readonly generatorHz: number;
	/** AVC law of the set, of the meter that all of this was read with at one level of the generator: the curve is then judged at the input. */
	readonly law?: AvcLaw;
	readonly aim: Aim;
	/** Tuned windings of the strip: 4 for two double-tuned transformers; adjusters are named for these only. */
	readonly windingCount: number;
	/** How the maker meant the curve, where the card says so: humps or a stagger that are meant are no fault. */
	readonly shape?: IfStripFacts['shape'];
}
