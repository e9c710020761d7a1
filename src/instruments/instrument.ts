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
