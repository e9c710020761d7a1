import * as z from 'zod/mini';
import { namedInstrument } from '#record/named-instrument.ts';
import { levelReading } from '#record/reading.ts';
import { testGear, testReading } from '#record/test-reading.ts';

/** What server and page say to each other about the host's instruments. */

const shortText = z.string().check(z.maxLength(300));
const id = z.string().check(z.regex(/^[A-Za-z0-9][A-Za-z0-9_-]{0,63}$/));

/** What is to be done by itself. */
const hostPlan = z.discriminatedUnion('kind', [
	z.strictObject({
		kind: z.literal('IF curve'),
		role: z.enum(['base', 'proof']),
		/** Adjusters to be nudged, by their ids on the card. */
		adjusters: z.array(id).check(z.maxLength(20)),
	}),
	z.strictObject({
		kind: z.literal('dial'),
		band: z.string().check(z.maxLength(60)),
		marksHz: z.array(z.number().check(z.positive())).check(z.minLength(1), z.maxLength(40)),
	}),
	z.strictObject({
		kind: z.literal('tests'),
		moment: testGear.shape.moment,
		tests: z.array(testReading.shape.test).check(z.minLength(1), z.maxLength(11)),
	}),
]);
export type HostPlan = z.infer<typeof hostPlan>;

/** Work to be begun on a run. */
export const workQuestion = z.strictObject({
	run: id,
	generator: namedInstrument,
	meter: namedInstrument,
	plan: hostPlan,
});
export type WorkQuestion = z.infer<typeof workQuestion>;

/** What the person says to work under way. */
export const workAct = z.discriminatedUnion('act', [
	z.strictObject({ act: z.literal('pause') }),
	z.strictObject({ act: z.literal('go on') }),
	z.strictObject({ act: z.literal('abort') }),
	/** The generator that was set for the bench is to be off. */
	z.strictObject({ act: z.literal('off') }),
	/** The generator that could not be switched off was switched off by hand. */
	z.strictObject({ act: z.literal('is off') }),
	z.strictObject({ act: z.literal('answer'), question: z.number(), answer: shortText }),
]);
export type WorkAct = z.infer<typeof workAct>;

const reading = z.strictObject({
	frequencyHz: z.number(),
	levelV: z.number(),
	/** Decibels of one volt; `null`: nothing was heard. */
	levelDb: z.nullable(z.number()),
});

const hostWork = z.strictObject({
	run: id,
	kind: z.enum(['IF curve', 'dial', 'tests']),
	stands: z.enum(['running', 'pausing', 'paused', 'asking', 'ended']),
	/** Share that is done, 0 to 1. */
	done: z.number(),
	/** Seconds that the rest may take; `null` while that cannot be told. */
	leftS: z.nullable(z.number()),
	/** Put to the person; the work waits. */
	question: z.nullable(
		z.strictObject({
			id: z.number(),
			words: z.string(),
			care: z.nullable(z.string()),
			answers: z.array(z.string()),
			/** Names in its words that a person gave. */
			typed: z.array(z.string()),
		}),
	),
	reading: z.nullable(reading),
	/** How it ended. */
	end: z.nullable(z.strictObject({ isDone: z.boolean(), words: z.string() })),
});
export type HostWork = z.infer<typeof hostWork>;

/** What a step of the bench wants of the generator: hertz, open-circuit volts rms, and amplitude modulation of a depth from 0 to 1. */
const generatorSetting = z.strictObject({
	frequencyHz: z.number().check(z.positive(), z.maximum(1e9)),
	levelV: z.number().check(z.positive(), z.maximum(100)),
	toneHz: z.number().check(z.positive(), z.maximum(1e5)),
	depth: z.number().check(z.minimum(0), z.maximum(1)),
});
export type GeneratorSetting = z.infer<typeof generatorSetting>;

/** A generator that is to be set; `isAgreed`: the person wants a level that rises by more than 10 dB. */
export const settingQuestion = z.strictObject({
	generator: namedInstrument,
	setting: generatorSetting,
	isAgreed: z.boolean(),
});
export type SettingQuestion = z.infer<typeof settingQuestion>;
/** `asks` is put to the person before anything is set; `null` when it was set. */
export const settingAnswer = z.strictObject({ asks: z.nullable(z.string()) });

/** The host's instruments as they stand. */
export const hostState = z.strictObject({
	/** `may be on`: the last word to the generator did not get through. */
	output: z.enum(['off', 'on', 'may be on']),
	work: z.nullable(hostWork),
	/** What the bench has set the generator to; `null` while it is off or at work by itself. */
	set: z.nullable(generatorSetting),
});
export type HostState = z.infer<typeof hostState>;

/** One line of a description to be tried, or with `null` only who is there. */
export const trialQuestion = z.strictObject({
	instrument: namedInstrument,
	line: z.nullable(z.number().check(z.int(), z.minimum(0), z.maximum(100))),
});
export type TrialQuestion = z.infer<typeof trialQuestion>;

/** Who is there, and what came of the line. */
export const trialAnswer = z.strictObject({
	identity: z.string(),
	trial: z.nullable(
		z.strictObject({
			what: z.string(),
			line: z.string(),
			kind: z.enum(['done', 'said', 'refused', 'asks', 'failed']),
			words: z.string(),
		}),
	),
});
export type TrialAnswer = z.infer<typeof trialAnswer>;

/** A meter that is to be read once; it stays connected for a while, since it is read again and again. */
export const readingQuestion = z.strictObject({ meter: namedInstrument });
export type ReadingQuestion = z.infer<typeof readingQuestion>;
export const readingAnswer = z.strictObject({ reading: levelReading });
