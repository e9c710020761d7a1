/** How hands have left a set: everything that moves without a soldering iron. */
export interface SetPosition {
	/** Turns of each adjuster from its counter-clockwise stop, by id. */
	readonly turns: Readonly<Record<string, number>>;
	/** Gang: 0 fully meshed, the lowest frequency, to 1 fully open. */
	readonly tuning: number;
	/** Volume control, 0 to 1. */
	readonly volume: number;
	/** Parts clipped across a winding. */
	readonly clips: readonly Clip[];
}

/** A part clipped across the winding that an adjuster tunes; 0 F and infinite ohms are no part. */
export interface Clip {
	readonly across: string;
	readonly ohm: number;
	readonly farad: number;
}

/** Where a generator's lead goes. */
export type SignalInto = 'antenna' | 'converter grid' | 'loose coupling';

/** What a generator does to a set. */
export interface SetSignal {
	readonly frequencyHz: number;
	/** Carrier, open circuit, volts rms; 0 when it is off. */
	readonly levelV: number;
	readonly toneHz: number;
	/** Modulation depth, 0 to 1. */
	readonly depth: number;
	readonly into: SignalInto;
}
