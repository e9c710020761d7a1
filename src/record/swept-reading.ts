import * as z from 'zod/mini';
import { levelReading } from './reading.ts';

/** One reading of a sweep that a program takes: where generator and level stood, and what the meter said. */
export const sweptReading = z.strictObject({
	kind: z.literal('swept reading'),
	/** Which sweep of the run. */
	sweep: z.string().check(z.minLength(1), z.maxLength(80)),
	/** `curve` for the curve itself, `reference` for a return to the same place, `level` while the generator's level is sought. */
	purpose: z.enum(['curve', 'reference', 'level']),
	frequencyHz: z.number(),
	/** Carrier, open circuit, volts rms, as set. */
	levelV: z.number(),
	reading: levelReading,
});
export type SweptReading = z.infer<typeof sweptReading>;
