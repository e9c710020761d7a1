import * as z from 'zod/mini';
import { generatorName } from './generator-trial.ts';
import { levelReading } from './reading.ts';

/** How a set's reading rises with its input is begun to be read: known levels of the generator at one place and one frequency. */
export const avcLawBegun = z.strictObject({
	kind: z.literal('AVC law begun'),
	step: z.string(),
	/** Where the generator's lead is: "converter grid, pin 8". */
	point: z.string().check(z.maxLength(200)),
	/** How the generator gives it: by hand, or what the driven one says it is. */
	generator: z.string().check(z.maxLength(200)),
	/** Name of the generator whose marks told the levels; its corrections are put on whenever the law is used. Absent: its levels are taken as they were kept. */
	markedBy: z.optional(generatorName),
	frequencyHz: z.nullable(z.number().check(z.positive())),
	toneHz: z.number().check(z.minimum(0)),
	/** Modulation depth, 0 to 1. */
	depth: z.number().check(z.minimum(0), z.maximum(1)),
});
export type AvcLawBegun = z.infer<typeof avcLawBegun>;

/** One known level of the generator, and what the meter came to rest at. */
export const avcStep = z.strictObject({
	kind: z.literal('AVC step'),
	/** The entry that began the law. */
	law: z.string(),
	/** Carrier, open circuit, volts rms. */
	levelV: z.number().check(z.positive()),
	reading: levelReading,
});
export type AvcStep = z.infer<typeof avcStep>;

/** A law that holds no more: a part was changed, or a step of 6 dB spoke against it. */
export const avcLawEnded = z.strictObject({
	kind: z.literal('AVC law ended'),
	law: z.string(),
	why: z.string().check(z.maxLength(2000)),
});
export type AvcLawEnded = z.infer<typeof avcLawEnded>;
