import type { Random } from '#core/numeric/random.ts';
import type { TestGear } from '#record/test-reading.ts';

/** Scatter of one reading of the output, decibels (chosen). */
export const scatterDb = 0.05;
/** Last digit of a frequency as it is read (chosen). */
export const frequencyDigitHz = 100;
/** Most that the generator's scale shows, volts. */
export const mostInputV = 1;
/** A generator whose volts are not known is off by up to this, decibels (chosen). */
const unknownVoltsDb = 6;

/** Generator, attenuator, meter and counter of a simulated bench, each off by chance within its limits and the same throughout. */
export class FaultyGear {
	readonly #gear: TestGear;
	readonly #random: Random;
	readonly #generatorDb: number;
	readonly #decadesDb: readonly number[];
	readonly #meterDb: number;
	readonly #meterDecadesDb: readonly number[];

	/**
	 * @param faults of the gear itself, drawn once
	 * @param random of each reading
	 */
	constructor(gear: TestGear, faults: Random, random: Random) {
		this.#gear = gear;
		this.#random = random;
		const within = (limit: number): number => limit * (2 * faults.uniform() - 1);
		this.#generatorDb = within(gear.generatorLimitDb ?? unknownVoltsDb);
		this.#decadesDb = Array.from({ length: 12 }, () => within(gear.attenuatorLimitDb / 2));
		this.#meterDb = within(gear.meterLimitDb / 2);
		this.#meterDecadesDb = Array.from({ length: 12 }, () => within(gear.meterLimitDb / 2));
	}

	/** Decibels by which the generator gives more than its scale shows. */
	#generatorFaultDb(inputV: number): number {
		const decade = Math.min(Math.max(Math.round(Math.log10(inputV) + 8), 0), 11);
		return this.#generatorDb + (this.#decadesDb[decade] as number);
	}

	#meterFaultDb(outputV: number): number {
		const tenDb = Math.min(Math.max(Math.round(2 * Math.log10(outputV) + 8), 0), 11);
		return this.#meterDb + (this.#meterDecadesDb[tenDb] as number);
	}

	/** Volts that the generator gives when its scale shows so many. */
	givenV(shownV: number): number {
		return shownV * 10 ** (this.#generatorFaultDb(shownV) / 20);
	}

	/** Volts that its scale shows when it gives so many; `null` beyond its most. */
	shownV(givenV: number | null): number | null {
		if (givenV === null) return null;
		const shownV = givenV / 10 ** (this.#generatorFaultDb(givenV) / 20);
		return shownV > mostInputV ? null : shownV;
	}

	/** Volts that are at the output when the meter has been brought to show so many. */
	broughtV(shownV: number): number {
		return shownV * 10 ** ((scatterDb * this.#random.gaussian() - this.#meterFaultDb(shownV)) / 20);
	}

	/** Volts that the meter shows. */
	meteredV(outputV: number): number {
		return outputV * 10 ** ((this.#meterFaultDb(outputV) + scatterDb * this.#random.gaussian()) / 20);
	}

	/** A frequency as the counter shows it. */
	frequencyRead(trueHz: number): number {
		return frequencyDigitHz * Math.round(this.setHz(trueHz) / frequencyDigitHz);
	}

	/** Where the generator is when it was set to a frequency. */
	setHz(wantedHz: number): number {
		return wantedHz + this.#gear.frequencyLimitHz * (2 * this.#random.uniform() - 1);
	}
}
