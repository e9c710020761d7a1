import * as z from 'zod/mini';
import { generatorName } from './generator-trial.ts';

const shortText = z.string().check(z.maxLength(200));
const positive = z.number().check(z.minimum(0));

/** The standard tests of a receiver. */
const testName = z.enum([
	'sensitivity',
	'signal to noise',
	'selectivity',
	'rejection',
	'AVC',
	'output',
	'audio response',
	'hum',
	'distortion',
	'oscillator',
	'stage gain',
]);
export type TestName = z.infer<typeof testName>;

/** Before the work or after it: the same tests are read twice. */
const testMoment = z.enum(['before', 'after']);
export type TestMoment = z.infer<typeof testMoment>;

/** With what the tests of one moment are read, and how far it can be trusted. Limits are the most that a reading may be off. */
export const testGear = z.strictObject({
	kind: z.literal('test gear'),
	moment: testMoment,
	generator: shortText,
	meter: shortText,
	/** Of the generator's volts; `null` where its scale is not in volts: then only ratios mean anything. */
	generatorLimitDb: z.nullable(positive),
	/** Of a ratio of two settings of its attenuator. */
	attenuatorLimitDb: positive,
	/** Of the output meter. */
	meterLimitDb: positive,
	/** Of a frequency as it is set and read. */
	frequencyLimitHz: positive,
	/** How well the pointer is set on a mark, along the scale, one standard deviation. */
	pointerM: positive,
	/** Of the load at the output; absent where it is not known. */
	loadOhm: z.optional(positive),
	/** Distance of stations on the air where the set lives. */
	channelHz: positive,
	/** Whether distortion can be read. */
	readsDistortion: z.boolean(),
});
export type TestGear = z.infer<typeof testGear>;

/** One raw reading of a standard test, with what was set when it was taken. */
export const testReading = z.strictObject({
	kind: z.literal('test reading'),
	moment: testMoment,
	test: testName,
	/** Which reading of the procedure. */
	ask: shortText,
	quantity: z.enum(['input volts', 'output volts', 'frequency', 'distortion share']),
	/** Volts rms, hertz or a share; `null`: it could not be reached, or nothing was heard. */
	value: z.nullable(z.number()),
	/** Standard uncertainty of the last digit, in the value's own unit. */
	uncertainty: positive,
	/** Where the generator stood, where that was read too. */
	generatorHz: z.optional(positive),
	/** Name of the generator whose marks told its level; its corrections are put on whenever the reading is used. Absent: the one that is named with the gear. */
	markedBy: z.optional(generatorName),
	instrument: shortText,
	/** As typed. */
	words: z.optional(shortText),
});
export type TestReading = z.infer<typeof testReading>;
