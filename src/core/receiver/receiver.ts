/**
 * What a simulated receiver is, for everybody outside this folder.
 * Network, device laws and solvers are in the files beside this one; two engines share them:
 * the operating point (steady state) and the stream (live sound).
 */

/** How an adjuster moves its circuit: value as a function of its travel in turns. */
export interface AdjusterLaw {
	readonly id: string;
	/** `capacitance`: farads; `inductance`: henries. */
	readonly moves: 'capacitance' | 'inductance';
	/** Turns from stop to stop, clockwise positive, beginning at 0. */
	readonly travelTurns: number;
}

/** How hands have left a set: everything that can be moved without a soldering iron. */
export interface SetPosition {
	/** Turns of each adjuster from its counter-clockwise stop, by id. */
	readonly turns: Readonly<Record<string, number>>;
	/** Gang: 0 fully meshed (lowest frequency) to 1 fully open. */
	readonly tuning: number;
	/** Volume control, 0 to 1. */
	readonly volume: number;
	/** Parts clipped across a winding, by the id of the adjuster that tunes it. */
	readonly clips: readonly Clip[];
	/** Pointer slip on the dial, metres along the scale, positive toward the high end. */
	readonly pointerSlipM: number;
}

export interface Clip {
	readonly across: string;
	readonly resistanceOhm: number | null;
	readonly capacitanceF: number | null;
}

/** What the generator does to the set. */
export interface SetSignal {
	readonly on: boolean;
	readonly frequencyHz: number;
	/** Open-circuit carrier, volts rms. */
	readonly levelV: number;
	readonly toneHz: number;
	readonly depth: number;
	readonly into: 'antenna' | 'converter grid' | 'loose coupling';
}

/** Steady state of the set under a signal. */
export interface OperatingPoint {
	/** Rms volts of the tone's fundamental at the voice coil. */
	readonly toneV: number;
	/** Watts of the tone's fundamental in the voice coil. */
	readonly outputW: number;
	/** Diode load, DC volts (negative on stronger signals). */
	readonly detectorV: number;
	/** AVC line, DC volts. */
	readonly avcV: number;
	/** Fraction of the second harmonic; indicative only. */
	readonly secondHarmonic: number;
	/** False when the strip oscillates by itself: then the other figures mean nothing. */
	readonly stable: boolean;
}

/** A running simulation in sound. Parameters may be changed at any time; the sound goes on without a click. */
export interface SetStream {
	setPosition(position: SetPosition): void;
	setSignal(signal: SetSignal): void;
	/** Fills `block` with volts at the voice coil. */
	render(block: Float32Array): void;
}
