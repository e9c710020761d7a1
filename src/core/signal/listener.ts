import { type Beat, beatOf } from './beat.ts';
import { clickTimesS } from './clicks.ts';
import { type Spectrum, spectrum, strongestHz } from './spectrum.ts';

/** What a set gives out by itself. */
type OwnSound = 'quiet' | 'hum' | 'crackle' | 'squeal' | 'putting';

/** What is heard of a set. */
export interface Heard {
	readonly kind: OwnSound | 'tone';
	/** Where the generator's tone leads, what is heard besides it; else `null`. */
	readonly besideTone: OwnSound | null;
	/** Rms, full scale being 1, in decibels below a full-scale sine. */
	readonly levelDbfs: number;
	readonly clicksPerMinute: number;
	readonly beat: Beat | null;
	/** Mains that the hum belongs to, and whether its own or twice its frequency leads; `null` when there is no hum. */
	readonly hum: { readonly mainsHz: 50 | 60; readonly leads: 'mains' | 'twice' } | null;
	/** Strongest line that is neither hum nor the generator's tone; `null` when none stands out. */
	readonly squealHz: number | null;
}

/** Impulses a minute from which on it crackles: three in ten seconds (chosen). */
export const leastClicks = 18;
/** Share of the sound's power that a line holds before it is what is heard (chosen). */
const leastShare = 0.25;
const lowestSquealHz = 200;
const highestSquealHz = 10e3;
/** Lines of a windowed tone. */
const besideLines = 2;
/** Lines about the generator's tone that its own wander and its window fill. */
const toneLines = 8;
const lowestSoundHz = 20;
/** The tone of a service generator may be off by this share (chosen: the tone's own search goes as far). */
const toneOffShare = 0.06;
/** Multiples of the tone that a set's distortion makes. */
const toneOrders = 10;
/** Of a tone's power, what is left beside it and counts: 1 % of its level (chosen; a sound set is below). */
const leastRestShare = 1e-4;

/** Power of the line at a frequency, its neighbours in the window counted in. */
function linePower({ powers, spacingHz }: Spectrum, frequencyHz: number, beside = besideLines): number {
	const middle = Math.round(frequencyHz / spacingHz);
	let power = 0;
	for (let at = middle - beside; at <= middle + beside; at++) power += powers[at] ?? 0;
	return power;
}

const sum = (values: readonly number[]): number => values.reduce((total, one) => total + one, 0);

function humOf(sound: Spectrum, whole: number): { hum: Heard['hum']; share: number } {
	const of = (mainsHz: 50 | 60) => {
		const [own, twice, ...more] = [1, 2, 3, 4, 5, 6].map((order) => linePower(sound, order * mainsHz)) as [
			number,
			number,
			...number[],
		];
		return { mainsHz, own, twice, all: own + twice + sum(more) };
	};
	const [fifty, sixty] = [of(50), of(60)] as const;
	const one = fifty.all > sixty.all ? fifty : sixty;
	const share = one.all / whole;
	return {
		hum: share >= leastShare ? { mainsHz: one.mainsHz, leads: one.own > one.twice ? 'mains' : 'twice' } : null,
		share,
	};
}

/** The strongest line from 200 c to 10 kc that is not the generator's tone nor a multiple of it. */
function squealOf(sound: Spectrum, toneHz: number): { atHz: number; power: number } {
	const { powers, spacingHz } = sound;
	let best = 0;
	for (let at = Math.ceil(lowestSquealHz / spacingHz); at * spacingHz < highestSquealHz; at++) {
		const order = Math.max(1, Math.round((at * spacingHz) / toneHz));
		if (Math.abs(at * spacingHz - order * toneHz) < (toneLines + besideLines) * spacingHz) continue;
		if ((powers[at] ?? 0) > (powers[best] ?? 0) || best === 0) best = at;
	}
	return { atHz: best * spacingHz, power: linePower(sound, best * spacingHz) };
}

/** Power of the generator's tone with its multiples. */
function tonePower(sound: Spectrum, toneHz: number): number {
	return sum(Array.from({ length: toneOrders }, (_, at) => linePower(sound, (at + 1) * toneHz, toneLines)));
}

/**
 * What a set gives out by itself: hum, crackle, squeal, motorboating or the generator's own tone, from its sound.
 * @param samples three seconds or more, full scale being 1
 * @param toneHz the generator's modulation, within 6 per cent
 */
export function listenTo(samples: ArrayLike<number>, sampleRateHz: number, toneHz: number): Heard {
	const sound = spectrum(samples, sampleRateHz);
	let whole = Number.MIN_VALUE;
	for (let at = Math.ceil(lowestSoundHz / sound.spacingHz); at < sound.powers.length; at++)
		whole += sound.powers[at] as number;
	let square = 0;
	for (let at = 0; at < samples.length; at++) square += (samples[at] as number) ** 2;
	const clicksPerMinute = (60 * clickTimesS(samples, sampleRateHz).length * sampleRateHz) / samples.length;
	const beat = beatOf(samples, sampleRateHz);
	const toneAtHz = strongestHz(sound, toneHz * (1 - toneOffShare), toneHz * (1 + toneOffShare)) ?? toneHz;
	const isTone = linePower(sound, toneAtHz) / whole >= leastShare;
	const rest = isTone ? Math.max(whole - tonePower(sound, toneAtHz), Number.MIN_VALUE) : whole;
	const isHeardBeside = !isTone || rest >= leastRestShare * whole;
	const { hum } = isHeardBeside ? humOf(sound, rest) : { hum: null };
	const squeal = squealOf(sound, toneAtHz);
	const isSqueal = isHeardBeside && squeal.power / rest >= leastShare;
	// A beat may hold clicks, and a squeal hides hum: the narrower finding comes first.
	const own: OwnSound = isSqueal
		? 'squeal'
		: beat !== null
			? 'putting'
			: clicksPerMinute >= leastClicks
				? 'crackle'
				: hum !== null
					? 'hum'
					: 'quiet';
	return {
		kind: isTone ? 'tone' : own,
		besideTone: isTone ? own : null,
		levelDbfs: 10 * Math.log10(Math.max((2 * square) / samples.length, Number.MIN_VALUE)),
		clicksPerMinute,
		beat,
		hum,
		squealHz: isSqueal ? squeal.atHz : null,
	};
}
