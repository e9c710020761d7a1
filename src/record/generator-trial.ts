import * as z from 'zod/mini';

const level = z.strictObject({ value: z.number(), uncertainty: z.number().check(z.minimum(0)) });
const moment = z.number().check(z.minimum(0), z.maximum(8.64e15));

/** What was read of a generator, level by level or minute by minute; decibels are of the meter, whatever it counts from. */
const read = z.discriminatedUnion('about', [
	/** One place of the attenuator: what it is marked with, more being stronger, and what the meter read. */
	z.strictObject({ about: z.literal('attenuator'), markedDb: z.number(), readDb: level }),
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
	/** Empty: the one without a name. */
	generator: z.string().check(z.maxLength(60)),
	read,
	/** What was typed, as typed. */
	words: z.optional(z.string().check(z.maxLength(200))),
});
export type GeneratorTrial = z.infer<typeof generatorTrial>;
