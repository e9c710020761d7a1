import * as z from 'zod/mini';

const level = z.strictObject({ value: z.number(), uncertainty: z.number().check(z.minimum(0)) });
/** What a generator is called, so that its corrections find it again on another day. Empty: the one without a name. */
export const generatorName = z.string().check(z.maxLength(60));
const moment = z.number().check(z.minimum(0), z.maximum(8.64e15));

/** What was read of a generator, level by level or minute by minute; decibels are of the meter, whatever it counts from. */
const read = z.discriminatedUnion('about', [
	/** One place of the attenuator: what it is marked with, more being stronger, and what the meter read. */
	z.strictObject({
		about: z.literal('attenuator'),
		markedDb: z.number(),
		/** What the marks are: volts, kept as decibels of a milliwatt, or decibels of the attenuator's own. Absent in older runs: it corrects no level. */
		markedIn: z.optional(z.enum(['volts', 'decibels'])),
		readDb: level,
	}),
	/** A level that is known, and what is left with the attenuator down and the lead off. */
	z.strictObject({
		about: z.literal('leakage'),
		knownV: z.number().check(z.positive(), z.maximum(100)),
		readDb: level,
		offDb: level,
	}),
	/** Modulation depth, 0 to 1, from the envelope or the sidebands. */
	z.strictObject({
		about: z.literal('modulation'),
		depth: z.number().check(z.minimum(0), z.maximum(2)),
		/** One standard deviation of the depth. */
		uncertainty: z.optional(z.number().check(z.minimum(0), z.maximum(2))),
		/** What it was set to, as marked, 0 to 1. */
		marked: z.optional(z.number().check(z.minimum(0), z.maximum(1))),
	}),
	/** Its frequency while it warms up; `onSinceMs` is when it was switched on. */
	z.strictObject({
		about: z.literal('warm-up'),
		onSinceMs: moment,
		frequencyHz: z.number().check(z.positive(), z.maximum(1e9)),
	}),
]);

/** One trial of a generator; it counts for that generator in every run. */
export const generatorTrial = z.strictObject({
	kind: z.literal('generator trial'),
	generator: generatorName,
	read,
	/** What was typed, as typed. */
	words: z.optional(z.string().check(z.maxLength(200))),
});
export type GeneratorTrial = z.infer<typeof generatorTrial>;
