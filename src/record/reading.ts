import * as z from 'zod/mini';

/** Why a level cannot be trusted; `ok` when it can. */
const trust = z.enum(['ok', 'clipped', 'no tone', 'too weak', 'held']);

/** A value with its standard uncertainty in the same unit; `null` where it cannot be had. */
export const estimate = z.strictObject({ value: z.number(), uncertainty: z.nullable(z.number()) });

/** What the decibels of a level count from. `dBrel` is relative to nothing known: only differences mean anything. */
const levelReference = z.enum(['dBFS', 'dBV', 'dBrel']);

/**
 * One reading of a meter. `levelDb` is `null` when there was no level to give (`trust` says why).
 * `atMs` is the time of the middle of the reading in milliseconds since 1970.
 */
export const levelReading = z.strictObject({
	kind: z.literal('level'),
	atMs: z.number(),
	instrument: z.string(),
	levelDb: z.nullable(estimate),
	reference: levelReference,
	quantity: z.enum(['tone', 'AVC volts', 'DC volts', 'AC volts']),
	trust,
	toneHz: z.optional(estimate),
	snrDb: z.optional(z.number()),
	/** What full scale of a sound input was taken for, decibels of one volt, where the level was made volts by it. */
	fullScaleDbv: z.optional(estimate),
	/** The words that a person typed, kept as typed. */
	words: z.optional(z.string()),
});
export type LevelReading = z.infer<typeof levelReading>;
