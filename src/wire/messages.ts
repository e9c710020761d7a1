import * as z from 'zod/mini';
import { photo } from '#record/photo.ts';
import { entryOutline, runEntry } from '#record/run.ts';
import { setCardSchema } from '#record/set-card.ts';

/** A set on the shelf, as the list shows it. */
const shelfLine = z.strictObject({
	id: z.string(),
	name: z.string(),
	year: z.nullable(z.number()),
	changedAtMs: z.number(),
	runs: z.strictObject({ work: z.number(), practice: z.number() }),
	isSimulated: z.boolean(),
});

/** Most sets that are listed at a time. */
export const setsAtOnce = 100;
/** One page of the sets that were asked for, and how many there are in all. */
export const shelfAnswer = z.strictObject({ total: z.number(), sets: z.array(shelfLine) });
export const setAnswer = z.strictObject({ id: z.string(), card: setCardSchema });

/** Photographs of a set, oldest first. */
export const photosAnswer = z.strictObject({ photos: z.array(photo) });
export const photoAnswer = z.strictObject({ photo });
export const doneAnswer = z.strictObject({ done: z.literal(true) });

/** What of an archive was new here. */
export const arrivalAnswer = z.strictObject({
	sets: z.number(),
	cards: z.number(),
	entries: z.number(),
	photos: z.number(),
});

/** A run, as the list shows it. */
const runLine = z.strictObject({
	run: z.string(),
	set: z.nullable(z.string()),
	startedAtMs: z.number(),
	lastAtMs: z.number(),
	entries: z.number(),
	/** How its last entry closed it; `null` for one that was never put down. */
	ended: z.nullable(z.enum(['done', 'left'])),
	/** A lesson, or free practice. */
	isPractice: z.boolean(),
});

/** Most runs that are listed, the newest of them. */
export const runsAtOnce = 1000;
/** A run, as the list shows it. */
export type RunLine = z.infer<typeof runLine>;
export const runsAnswer = z.strictObject({ runs: z.array(runLine) });

/** Most entries that are sent or shown at a time. */
export const entriesAtOnce = 1000;

/** Entries to be kept; those kept before are passed over. */
export const entriesQuestion = z.strictObject({
	entries: z.array(runEntry).check(z.minLength(1), z.maxLength(entriesAtOnce)),
});
/** One page of a run's entries in order. */
export const entriesAnswer = z.strictObject({ entries: z.array(runEntry) });
/** The entries that tell where a run stands, in order. */
export const standingAnswer = z.strictObject({ entries: z.array(entryOutline) });
/** `moved`: how many found their place taken by another writer and stand behind the run's last. */
export const keptAnswer = z.strictObject({ kept: z.number(), moved: z.number() });

/** What went wrong, in a sentence for the person. */
export const faultAnswer = z.strictObject({ fault: z.string() });
