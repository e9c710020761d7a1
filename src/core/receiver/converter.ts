import { type Complex, complex, conjugate, scaled } from '#core/numeric/complex.ts';
import { AntennaCircuit } from './antenna.ts';
import { node } from './if-strip.ts';
import { ifGridLeadS } from './lead.ts';
import type { SignalInto } from './signal.ts';
import { oscillatorHz, type SetValues } from './values.ts';

/** A signal where it enters the IF strip. */
export interface Converted {
	/** Current into that node for a volt of generator, AVC not counted, amperes. */
	readonly current: Complex;
	/** Node of the strip: what comes by way of the converter is held by AVC there too. */
	readonly entry: typeof node.converterPlate | typeof node.ifGrid;
	/** Where it falls. */
	readonly ifHz: number;
}

/** From the generator to the IF strip. */
export class Converter {
	readonly #values: SetValues;
	readonly #antenna: AntennaCircuit;
	readonly #oscillatorHz: number;

	constructor(values: SetValues) {
		this.#values = values;
		this.#antenna = new AntennaCircuit(values);
		this.#oscillatorHz = oscillatorHz(values);
	}

	/** What comes of a frequency: straight to the IF tube's grid it stays what it is; through the converter a signal at the intermediate frequency goes straight through, any other is mixed; the nearer way counts. */
	at(frequencyHz: number, into: SignalInto): Converted {
		const { ifHz, tubes } = this.#values;
		if (into === 'IF grid') return { current: complex(ifGridLeadS, 0), entry: node.ifGrid, ifHz: frequencyHz };
		const entry = node.converterPlate;
		const grid = this.#antenna.transfer(frequencyHz, into);
		const belowHz = this.#oscillatorHz - frequencyHz;
		if (Math.abs(frequencyHz - ifHz) < Math.abs(Math.abs(belowHz) - ifHz)) {
			return { current: scaled(grid, -tubes.throughS), entry, ifHz: frequencyHz };
		}
		// With the oscillator above the signal the spectrum is turned over.
		const mixed = belowHz > 0 ? conjugate(grid) : grid;
		return { current: scaled(mixed, -tubes.conversionS), entry, ifHz: Math.abs(belowHz) };
	}
}
