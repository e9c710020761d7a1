import type { LevelReading } from '#record/reading.ts';

/** What a live meter tells while it is open. */
export interface MeterListener {
	/**
	 * Called about ten times a second.
	 * @param picture two cycles of the tone, averaged, where the meter sees the wave
	 */
	reading(reading: LevelReading, picture: Float64Array | null): void;
	/** Called when the meter stopped by itself, with a sentence for the person. */
	failure(words: string): void;
}

/** A meter that reads by itself, ten times a second, until it is closed. A person with a meter of their own types instead. */
export interface LiveMeter {
	/** As the system calls it. */
	readonly name: string;
	/** It hears the room: what the program sounds reaches it too. */
	readonly hearsRoom: boolean;
	/** Its generator tells by itself when its level is changed. */
	readonly tellsGenerator: boolean;
	close(): Promise<void>;
}

/** What an instrument could not do, in words for the person: outside its range, a question to be answered first, or a failure. */
export interface NotDone {
	readonly kind: 'refused' | 'asks' | 'failed';
	readonly words: string;
}

/** What came of telling an instrument to do something; `sent` is what a value came to by the digits that it went out with, absent where it went out as it is. */
export type Done = { readonly kind: 'done'; readonly sent?: number } | NotDone;

/** A generator that a program can set. */
export interface Generator {
	readonly name: string;
	setFrequency(frequencyHz: number): Promise<Done>;
	/** Open-circuit volts rms. More than 10 dB up at once is not done: it asks. */
	setLevel(levelV: number): Promise<Done>;
	/** The level that setLevel asked about, after the person has agreed. */
	raiseLevel(levelV: number): Promise<Done>;
	/** Amplitude modulation, depth 0 to 1. */
	modulate(toneHz: number, depth: number): Promise<Done>;
	switchOn(): Promise<Done>;
	switchOff(): Promise<Done>;
}

/** A meter that reads when it is asked. */
export interface AskedMeter {
	readonly name: string;
	read(): Promise<LevelReading | NotDone>;
}
