import type { Connection } from '#record/connection.ts';
import type { LevelReading } from '#record/reading.ts';

/** What an instrument says of itself. */
export interface InstrumentIdentity {
	readonly id: string;
	readonly name: string;
	readonly kind: 'typed' | 'sound card' | 'microphone' | 'virtual' | 'SCPI' | 'remote';
}

export type Stop = () => void;

/** A still picture of the tone: one averaged cycle or two, in volts or full-scale fractions. */
export interface WaveformPicture {
	readonly samples: Float32Array;
	readonly durationS: number;
}

/** An instrument that reads a level. A live one hands on about ten readings a second; a person with a meter hands on one when it is typed. */
export interface Meter {
	readonly identity: InstrumentIdentity;
	readonly live: boolean;
	open(): Promise<void>;
	close(): Promise<void>;
	/** Calls `listener` for every reading until the returned function is called. */
	onReading(listener: (reading: LevelReading) => void): Stop;
	/** Calls `listener` when the instrument stopped working by itself, with a sentence for the person. */
	onFailure(listener: (words: string) => void): Stop;
	/** The latest averaged waveform, or `null`. */
	waveform(): WaveformPicture | null;
}

export interface GeneratorSetting {
	readonly on: boolean;
	readonly frequencyHz: number;
	/** Open-circuit carrier, volts rms. */
	readonly levelV: number;
	readonly toneHz: number;
	/** Modulation depth, 0 to 1; 0 is an unmodulated carrier. */
	readonly depth: number;
	readonly connection: Connection;
}

/** An instrument that makes a signal. A hand-set one keeps what the person said was set. */
export interface Generator {
	readonly identity: InstrumentIdentity;
	/** True when `set` really sets it; false when a person does and `set` only notes it. */
	readonly driven: boolean;
	setting(): GeneratorSetting;
	set(setting: GeneratorSetting): Promise<void>;
}
