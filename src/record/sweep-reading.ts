import * as z from 'zod/mini';
import { generatorName } from './generator-trial.ts';
import { levelReading } from './reading.ts';
import { sweepLimits } from './sweep.ts';

const id = z.string().check(z.maxLength(64));
const frequencyHz = z.number().check(z.positive(), z.maximum(sweepLimits.mostHz));
const { mostDb } = sweepLimits;

/** What a sweep of the IF is read for: as found, after a small turn of one adjuster, with another generator level, after an adjuster was set to its mark, or as proof. */
const sweepRole = z.enum(['base', 'nudge', 'second level', 'setting', 'proof']);
export type SweepRole = z.infer<typeof sweepRole>;

/** A sweep is begun; the entry that keeps this is the sweep's id. */
export const sweepBegun = z.strictObject({
	kind: z.literal('sweep begun'),
	role: sweepRole,
	/** The adjuster that was turned just before, where the sweep is read after a nudge or a setting. */
	adjuster: z.optional(z.string()),
	/** How far the setting was meant to take the adjuster's circuit. */
	aimedHz: z.optional(z.number()),
	/** Generator frequency of the mark that it was set to. */
	markHz: z.optional(z.number().check(z.positive())),
});

/** A sweep is given a name by the person. */
export const sweepNamed = z.strictObject({
	kind: z.literal('sweep named'),
	sweep: id,
	name: z.string().check(z.maxLength(60)),
});

/** One point of a sweep as it was read: the generator's frequency as set, and the reading as any other. */
export const sweepPointRead = z.strictObject({
	kind: z.literal('sweep point'),
	sweep: id,
	frequencyHz,
	reading: levelReading,
	/** The meter was kept at one reading and this is the generator's level for it: the curve is this upside down, whatever AVC and detector do. */
	isGeneratorLevel: z.optional(z.boolean()),
	/** Name of the generator whose marks told that level; its corrections are put on whenever the curve is used. Absent: the level is taken as it was kept. */
	markedBy: z.optional(generatorName),
});

/** Most points of a file that a journal entry takes: far above any IF curve, chosen so that an entry stays small. */
export const mostFilePoints = 2000;

/** A sweep that came in a file, with the file's own points. */
export const sweepFileRead = z.strictObject({
	kind: z.literal('sweep file'),
	sweep: id,
	file: z.string().check(z.maxLength(300)),
	points: z
		.array(
			z.strictObject({
				frequencyHz,
				levelDb: z.number().check(z.minimum(-mostDb), z.maximum(mostDb)),
				uncertaintyDb: z.nullable(z.number().check(z.minimum(0), z.maximum(mostDb))),
			}),
		)
		.check(z.minLength(1), z.maxLength(mostFilePoints)),
});
