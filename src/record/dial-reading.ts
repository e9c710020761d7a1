import * as z from 'zod/mini';
import { generatorName } from './generator-trial.ts';

const frequencyHz = z.number().check(z.positive(), z.maximum(1e9));
const pass = z.number().check(z.int(), z.minimum(0), z.maximum(1000));
const band = z.string().check(z.maxLength(60));

/** One raw reading of a dial: with the pointer on a mark, what came in. Never rewritten; a better estimate reads it again. */
export const dialReading = z.strictObject({
	kind: z.literal('dial reading'),
	band,
	/** Counted from 0; oscillator adjusters are turned between passes. */
	pass,
	dialHz: frequencyHz,
	heardHz: frequencyHz,
	/** Of the frequency that came in: generator or station, peak and last digit. The pointer's error is the gear's. */
	heardUncertaintyHz: z.number().check(z.minimum(0)),
	source: z.enum(['generator', 'driven generator', 'station', 'virtual generator']),
	/** Which generator; its dial's corrections are put on whenever the reading is used. Absent in older runs: the one without a name. */
	generator: z.optional(generatorName),
	/** What was typed, as typed. */
	words: z.optional(z.string().check(z.maxLength(100))),
});
export type DialReading = z.infer<typeof dialReading>;

/** How a dial is read: said once, and again when it changes. */
export const dialGear = z.strictObject({
	kind: z.literal('dial gear'),
	band,
	/** How well the pointer is set on a mark, along the scale, one standard deviation. */
	readingM: z.number().check(z.positive(), z.maximum(0.1)),
	/** Length of the scale from end to end. */
	travelM: z.number().check(z.positive(), z.maximum(2)),
});
export type DialGear = z.infer<typeof dialGear>;

/** One check of a generator's dial, by zero beat with a station or by counter. It corrects what is typed from that generator, before and after. */
export const generatorCheck = z.strictObject({
	kind: z.literal('generator check'),
	/** Absent: the one without a name. */
	generator: z.optional(generatorName),
	readsHz: frequencyHz,
	trueHz: frequencyHz,
	/** Of the pair. */
	uncertaintyHz: z.number().check(z.minimum(0)),
	/** What was typed, as typed. */
	words: z.string().check(z.maxLength(200)),
});
export type GeneratorCheck = z.infer<typeof generatorCheck>;

/** One act that was done at the oscillator or the pointer. */
export const dialActDone = z.strictObject({
	kind: z.literal('dial act'),
	band,
	pass,
	adjuster: z.enum(['trimmer', 'padder', 'slug', 'pointer']),
	sitAtDialHz: frequencyHz,
	/** What the generator truly gave. */
	bringInHz: frequencyHz,
	/** Entry of the reading at that mark since which the pointer was not moved. Absent: it was set anew, or in older runs. */
	since: z.optional(z.string().check(z.maxLength(60))),
	/** The last act of its pass. */
	endsPass: z.boolean(),
});
export type DialActDone = z.infer<typeof dialActDone>;
