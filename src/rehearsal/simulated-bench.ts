import { createRandom, type Random } from '#core/numeric/random.ts';
import { type BenchSet, tuningAtMark, valuesAt } from '#core/receiver/bench-set.ts';
import { leakV } from '#core/receiver/faults.ts';
import { SteadyState } from '#core/receiver/operating-point.ts';
import { type GeneratorPlace, standardTone } from '#core/receiver/signal.ts';

/** What the simulated person has on the bench. */
export interface Gear {
	/** Smallest step that the output meter shows, decibels. */
	readonly meterDb: number;
	/** How well the pointer is set on a mark, along the scale, one standard deviation. */
	readonly pointerM: number;
	readonly seed: number;
}

/** Hum, hiss and the meter's own zero: below this no tone is read at the voice coil (chosen). */
const floorV = 2e-3;
/** Output that the hand keeps to: well above the floor, well below where AVC flattens the peak. */
const wantedV = 0.3;
/** Near its knee the set answers a step of the generator about so many times over. */
const kneeTimes = 1.5;
const leastLevelV = 1e-6;
const mostLevelV = 0.5;
/** A screwdriver is set to about a hundredth of a turn (chosen). */
const handTurns = 0.01;

/** A set, a generator and a meter, with a hand that is not perfectly steady. Counts what it does. */
export class SimulatedBench {
	#set: BenchSet;
	#tuning = 0.5;
	#levelV = 0.01;
	#generator: GeneratorPlace = { frequencyHz: 0, ...standardTone, into: 'converter grid' };
	readonly #gear: Gear;
	readonly #random: Random;
	readings = 0;
	adjustments = 0;

	constructor(set: BenchSet, gear: Gear) {
		this.#set = set;
		this.#gear = gear;
		this.#random = createRandom(gear.seed ^ 0x5eed);
	}

	get set(): BenchSet {
		return this.#set;
	}

	/** How well the pointer is set on a mark, along the scale. */
	get pointerM(): number {
		return this.#gear.pointerM;
	}

	/** Smallest difference that the meter can tell, decibels. */
	get meterDb(): number {
		return this.#gear.meterDb;
	}

	#toneV(): number {
		return new SteadyState(valuesAt(this.#set, this.#tuning)).operatingPoint({
			...this.#generator,
			levelV: Math.hypot(this.#levelV, leakV(this.#set.faults)),
		}).toneV;
	}

	/** Hooks the generator up and sets its frequency. */
	hookUp(generator: GeneratorPlace): void {
		this.#generator = generator;
	}

	/** Sets the pointer on a mark, as well as eyes can. */
	pointAt(dialHz: number): void {
		const slipM = this.#gear.pointerM * this.#random.gaussian();
		this.#tuning = tuningAtMark(this.#set, dialHz) + slipM / this.#set.design.scaleTravelM;
	}

	/** Turns the attenuator until the output stands where it is read best: as weak as will serve. */
	setLevel(): void {
		for (let step = 0; step < 40; step++) {
			const toneV = this.#toneV();
			if (toneV > wantedV * 0.7 && toneV < wantedV * 1.4) return;
			const wanted = this.#levelV * Math.sqrt(wantedV / Math.max(toneV, 1e-5));
			const next = Math.min(Math.max(wanted, leastLevelV), mostLevelV);
			if (next === this.#levelV) return;
			this.#levelV = next;
		}
	}

	/** Generator level now, volts. */
	get levelV(): number {
		return this.#levelV;
	}

	/** One reading of the output meter, decibels. */
	readDb(): number {
		this.readings++;
		const trueDb = 20 * Math.log10(Math.hypot(this.#toneV(), floorV));
		const { meterDb } = this.#gear;
		return meterDb * Math.round((trueDb + (meterDb / 2) * this.#random.gaussian()) / meterDb);
	}

	/**
	 * Turns the attenuator until the meter reads the usual output; what it then stands at, decibels below one volt.
	 * More is a stronger answer of the set, whatever its AVC and detector do. What the meter still misses is counted in.
	 */
	inputDb(): number {
		this.setLevel();
		let missDb = this.readDb() - 20 * Math.log10(wantedV);
		for (let attempt = 0; attempt < 3 && Math.abs(missDb) > 2 * this.meterDb; attempt++) {
			this.#levelV = Math.min(Math.max(this.#levelV * 10 ** (-missDb / kneeTimes / 20), leastLevelV), mostLevelV);
			missDb = this.readDb() - 20 * Math.log10(wantedV);
		}
		return missDb / kneeTimes - 20 * Math.log10(this.#levelV);
	}

	turnsOf(adjuster: string): number {
		return this.#set.turns[adjuster] ?? 0;
	}

	travelOf(adjuster: string): number {
		return this.#set.design.adjusters[adjuster]?.travelTurns ?? 0;
	}

	/** Turns an adjuster to a place, as well as a hand can; stops are felt. */
	turnTo(adjuster: string, turns: number): void {
		const meant = turns + handTurns * this.#random.gaussian();
		const at = Math.min(Math.max(meant, 0), this.travelOf(adjuster));
		this.#set = { ...this.#set, turns: { ...this.#set.turns, [adjuster]: at } };
	}
}
