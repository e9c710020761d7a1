import { meanOf } from './steadiness.ts';

/** One frame of a live meter, as the watch over the generator needs it. */
export interface WatchedFrame {
	readonly levelDb: number;
	/** Frequency of the tone; `null` when the meter does not tell it. */
	readonly toneHz: number | null;
}

/** What looks as if the generator or its lead had been touched by accident. */
export type GeneratorChange =
	| { readonly kind: 'tone moved'; readonly byHz: number }
	| { readonly kind: 'level jumped'; readonly byDb: number };

/** Frames looked at on either side of a jump, and how many may fall into it. */
const sideFrames = 3;
const jumpFrames = 2;
/** Frames of the first second, from which the tone is known. */
const toneFrames = 10;
/** A tone that moves more than this is another (chosen: tone oscillators of service generators drift less in minutes; one frame tells about 0.1 c). */
const toneMovedHz = 3;
/** Flat before and after, a jump between: what an attenuator does and a hand on a screw does not. While nothing is turned, less is told. */
const jumpDb = { turning: 3, 'hands off': 1 } as const;
const flatDb = 0.3;
const flatSigmas = 6;

const reach = (values: readonly number[]): number => Math.max(...values) - Math.min(...values);
const middle = (values: readonly number[]): number =>
	[...values].sort((a, b) => a - b)[values.length >> 1] ?? Number.NaN;

/**
 * Whether the last frames look as if the generator was changed by accident; `null` when they do not.
 * A quick flick of the screw from one steady level to another looks the same: it is a question to the person, not a finding.
 * @param frames oldest first, all since the adjuster was taken in hand
 * @param uncertaintyDb standard uncertainty that the meter states for one reading
 */
export function generatorChange(
	frames: readonly WatchedFrame[],
	hand: 'turning' | 'hands off',
	uncertaintyDb: number,
): GeneratorChange | null {
	const tonesHz = frames.flatMap(({ toneHz }) => (toneHz === null ? [] : [toneHz]));
	if (tonesHz.length >= toneFrames + sideFrames) {
		const byHz = middle(tonesHz.slice(-sideFrames)) - middle(tonesHz.slice(0, toneFrames));
		if (Math.abs(byHz) > toneMovedHz) return { kind: 'tone moved', byHz };
	}
	const last = frames.slice(-2 * sideFrames - jumpFrames).map(({ levelDb }) => levelDb);
	if (last.length < 2 * sideFrames + jumpFrames) return null;
	const before = last.slice(0, sideFrames);
	const after = last.slice(-sideFrames);
	const limitDb = Math.max(flatDb, flatSigmas * uncertaintyDb);
	if (reach(before) > limitDb || reach(after) > limitDb) return null;
	const byDb = meanOf(after) - meanOf(before);
	return Math.abs(byDb) > Math.max(jumpDb[hand], flatSigmas * uncertaintyDb) ? { kind: 'level jumped', byDb } : null;
}

/**
 * The change as a question.
 * @example generatorChangeWords({ kind: 'level jumped', byDb: -6 }) // => 'The level fell by 6.0 dB at once. Was the generator or a lead touched?'
 */
export function generatorChangeWords(change: GeneratorChange): string {
	if (change.kind === 'tone moved')
		return `The tone moved by ${Math.abs(change.byHz).toFixed(0)} c. Was the generator touched?`;
	return `The level ${change.byDb < 0 ? 'fell' : 'rose'} by ${Math.abs(change.byDb).toFixed(1)} dB at once. Was the generator or a lead touched?`;
}
