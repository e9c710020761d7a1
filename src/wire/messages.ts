import * as z from 'zod/mini';
import { runEntry } from '#record/run.ts';
import { setCardSchema } from '#record/set-card.ts';

/** A set on the shelf, as the list shows it. */
const shelfLine = z.strictObject({
	id: z.string(),
	name: z.string(),
	year: z.nullable(z.number()),
	changedAtMs: z.number(),
	runs: z.number(),
});

export const shelfAnswer = z.strictObject({ sets: z.array(shelfLine) });
export const setAnswer = z.strictObject({ id: z.string(), card: setCardSchema });

/** A run, as the list shows it. */
const runLine = z.strictObject({
	run: z.string(),
	set: z.nullable(z.string()),
	startedAtMs: z.number(),
	lastAtMs: z.number(),
	entries: z.number(),
});

export const runsAnswer = z.strictObject({ runs: z.array(runLine) });

/** Entries to be kept, at most a thousand at a time; those kept before are passed over. */
export const entriesQuestion = z.strictObject({ entries: z.array(runEntry).check(z.minLength(1), z.maxLength(1000)) });
export const entriesAnswer = z.strictObject({ entries: z.array(runEntry) });
export const keptAnswer = z.strictObject({ kept: z.number() });

/** What went wrong, in a sentence for the person. */
export const faultAnswer = z.strictObject({ fault: z.string() });
