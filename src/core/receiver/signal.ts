/** Where a generator's lead goes; to the audio grid, which is the top of the volume control, it brings the tone alone, without carrier. */
export type SignalInto = 'antenna' | 'converter grid' | 'IF grid' | 'audio grid' | 'loose coupling';

/** How a generator is set and hooked up, its level apart. */
export interface GeneratorPlace {
	readonly frequencyHz: number;
	readonly toneHz: number;
	/** Modulation depth, 0 to 1. */
	readonly depth: number;
	readonly into: SignalInto;
}

/** What a generator does to a set. */
export interface SetSignal extends GeneratorPlace {
	/** Carrier, open circuit, volts rms; at the audio grid the tone; 0 when it is off. */
	readonly levelV: number;
}

/** Tone of broadcast receiver tests: 400 c at 30 % [kennedy]. */
export const standardTone = { toneHz: 400, depth: 0.3 } as const;
