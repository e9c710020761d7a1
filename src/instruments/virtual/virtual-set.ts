import { createRandom, type Random } from '#core/numeric/random.ts';
import { type BenchSet, tuningAtMark, valuesAt } from '#core/receiver/bench-set.ts';
import type { SetDesign } from '#core/receiver/design.ts';
import { SteadyState } from '#core/receiver/operating-point.ts';
import { type GeneratorPlace, standardTone } from '#core/receiver/signal.ts';
import { tamperedSet } from '#core/receiver/truth.ts';
import type { LevelReading } from '#record/reading.ts';

/** Hum and hiss at the voice coil, volts rms (chosen). */
const floorV = 1e-3;
/** Share of the floor that falls into the meter's band around the tone (chosen). */
const floorShare = 0.3;
/** Scatter of one reading of a steady tone, decibels (chosen; as a sound card reads it). */
const scatterDb = 0.03;
/** The attenuator's ends, volts: a service generator's (chosen). */
/** Where the attenuator stands at first: weak enough that AVC and the output tube do not flatten the peak (chosen). */
const firstLevelV = 1e-3;
const leastLevelV = 1e-6;
const mostLevelV = 1;

/** What hands have done to a virtual set, to be kept over a reload. */
export interface VirtualState {
	readonly turns: Readonly<Record<string, number>>;
	readonly levelV: number;
}

/** A simulated set with its generator and output meter: tampered by seed, turned by the person, read ten times a second. */
export class VirtualSet {
	#set: BenchSet;
	#levelV: number;
	#generator: GeneratorPlace = { frequencyHz: 0, ...standardTone, into: 'antenna' };
	#dialHz: number;
	readonly #random: Random;

	constructor(design: SetDesign, seed: number, kept: VirtualState | null) {
		const tampered = tamperedSet(design, seed);
		this.#set = kept ? { ...tampered, turns: { ...tampered.turns, ...kept.turns } } : tampered;
		this.#dialHz = design.band.lowHz;
		this.#levelV = kept?.levelV ?? firstLevelV;
		this.#random = createRandom(seed + 1);
	}

	/** What the set was built as; its true settings are its own. */
	get design(): SetDesign {
		return this.#set.design;
	}

	get state(): VirtualState {
		return { turns: this.#set.turns, levelV: this.#levelV };
	}

	/** Hooks the generator up, sets its frequency and puts the pointer on a mark. */
	place(generator: GeneratorPlace, dialHz: number): void {
		this.#generator = generator;
		this.#dialHz = dialHz;
	}

	/** Turns an adjuster, clockwise positive; `false` when its stop was felt. */
	turn(adjuster: string, turns: number): boolean {
		const travel = this.#set.design.adjusters[adjuster]?.travelTurns;
		const now = this.#set.turns[adjuster];
		if (travel === undefined || now === undefined) return false;
		const at = Math.min(Math.max(now + turns, 0), travel);
		this.#set = { ...this.#set, turns: { ...this.#set.turns, [adjuster]: at } };
		return at === now + turns;
	}

	/** Turns the attenuator by decibels, within the generator's range. */
	changeLevel(stepDb: number): void {
		this.#levelV = Math.min(Math.max(this.#levelV * 10 ** (stepDb / 20), leastLevelV), mostLevelV);
	}

	/** One reading of the tone at the voice coil, decibels of one volt. */
	read(atMs: number): LevelReading {
		const steady = new SteadyState(valuesAt(this.#set, tuningAtMark(this.#set, this.#dialHz)));
		const { toneV } = steady.operatingPoint({ ...this.#generator, levelV: this.#levelV });
		const common = { kind: 'level', atMs, instrument: 'virtual set', reference: 'dBV', quantity: 'tone' } as const;
		if (toneV < 2 * floorV) return { ...common, trust: 'too weak', levelDb: null };
		const uncertainty = Math.hypot(scatterDb, (20 / Math.LN10) * ((floorShare * floorV) / toneV));
		const value = 20 * Math.log10(toneV) + uncertainty * this.#random.gaussian();
		return { ...common, trust: 'ok', levelDb: { value, uncertainty } };
	}
}
