import { type Complex, conjugate, scaled } from '#core/numeric/complex.ts';
import { AntennaCircuit } from './antenna.ts';
import type { SignalInto } from './signal.ts';
import { oscillatorHz, type SetValues } from './values.ts';

/** A signal after the converter. */
export interface Converted {
	/** Current into the converter's plate for a volt of generator, AVC not counted, amperes. */
	readonly current: Complex;
	/** Where it falls. */
	readonly ifHz: number;
}

/** From the generator to the converter's plate. */
export class Converter {
	readonly #values: SetValues;
	readonly #antenna: AntennaCircuit;
	readonly #oscillatorHz: number;

	constructor(values: SetValues) {
		this.#values = values;
		this.#antenna = new AntennaCircuit(values);
		this.#oscillatorHz = oscillatorHz(values);
	}

	/** What the converter makes of a frequency: a signal at the intermediate frequency goes straight through, any other is mixed; the nearer way counts. */
	at(frequencyHz: number, into: SignalInto): Converted {
		const { ifHz, tubes } = this.#values;
		const grid = this.#antenna.transfer(frequencyHz, into);
		const belowHz = this.#oscillatorHz - frequencyHz;
		if (Math.abs(frequencyHz - ifHz) < Math.abs(Math.abs(belowHz) - ifHz)) {
			return { current: scaled(grid, -tubes.throughS), ifHz: frequencyHz };
		}
		// With the oscillator above the signal the spectrum is turned over.
		const mixed = belowHz > 0 ? conjugate(grid) : grid;
		return { current: scaled(mixed, -tubes.conversionS), ifHz: Math.abs(belowHz) };
	}
}
