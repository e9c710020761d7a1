import * as z from 'zod/mini';
import { avcLawBegun, avcLawEnded, avcStep } from './avc-steps.ts';
import { dialActDone, dialGear, dialReading, generatorCheck } from './dial-reading.ts';
import { generatorTrial } from './generator-trial.ts';
import { heardSound } from './heard.ts';
import { estimate, levelReading } from './reading.ts';
import { setCardSchema } from './set-card.ts';
import { sweepBegun, sweepFileRead, sweepNamed, sweepPointRead } from './sweep-reading.ts';
import { sweptReading } from './swept-reading.ts';
import { testGear, testReading } from './test-reading.ts';
import { testAnswered } from './trouble-answer.ts';

const id = z.string().check(z.regex(/^[A-Za-z0-9][A-Za-z0-9_-]{0,63}$/));
const text = z.string().check(z.maxLength(20_000));

/** A moment as milliseconds since 1970, as far as a calendar reaches. */
export const moment = z.number().check(z.minimum(0), z.maximum(8.64e15));

/** A run on a virtual set that was put out of order on purpose: a lesson by name, or tampering by seed with faults by name. */
const practiceCase = z.strictObject({
	lesson: z.optional(id),
	seed: z.number().check(z.int(), z.minimum(0)),
	faults: z.array(id),
});
export type PracticeCase = z.infer<typeof practiceCase>;

const started = z.strictObject({
	kind: z.literal('started'),
	card: setCardSchema,
	options: z.record(z.string(), z.string()),
	meter: z.string(),
	generator: z.string(),
	practice: z.optional(practiceCase),
});
const gatePassed = z.strictObject({
	kind: z.literal('gate passed'),
	gate: z.string(),
	answers: z.record(z.string(), z.string()),
});
const stepBegun = z.strictObject({ kind: z.literal('step begun'), step: z.string(), pass: z.number() });
const stepDone = z.strictObject({
	kind: z.literal('step done'),
	step: z.string(),
	pass: z.number(),
	answers: z.optional(z.record(z.string(), z.string())),
	skipped: z.optional(z.string()),
});
const level = z.strictObject({
	kind: z.literal('level'),
	step: z.string(),
	adjuster: z.optional(z.string()),
	/** `live` while turning; `reference` before or after an adjuster, tool withdrawn; `check` for the hands-on, hands-off and 6 dB tests. */
	purpose: z.enum(['live', 'reference before', 'reference after', 'check']),
	/** Which check: five seconds hands off and on, before and after a step of 6 dB, or the last reading once more after a pause. */
	check: z.optional(z.enum(['hands off', 'hands on', 'before the step', 'after the step', 'as left'])),
	reading: levelReading,
});
const adjusted = z.strictObject({
	kind: z.literal('adjusted'),
	step: z.string(),
	pass: z.number(),
	adjuster: z.string(),
	/** Net turn in eighths, clockwise positive; `null`: not counted. */
	eighths: z.nullable(z.number()),
	/** It came to the end of its travel. */
	atStop: z.optional(z.literal(true)),
	beforeDb: z.nullable(estimate),
	afterDb: z.nullable(estimate),
	bestDb: z.nullable(estimate),
	/** What the turn gained, changes of the generator's level left out; absent where nothing tells. */
	gainDb: z.optional(estimate),
	/** `gainDb` is of the input, AVC and detector taken out by the set's law; absent: of the reading. */
	gainAt: z.optional(z.literal('input')),
});
/** The generator's level was changed: levels before and after cannot be compared. */
const generatorLevel = z.strictObject({
	kind: z.literal('generator level'),
	step: z.string(),
	/** Carrier, open circuit, volts rms; absent where the generator does not tell. */
	levelV: z.optional(z.number().check(z.minimum(0))),
});
/** What the hand on an adjuster does to the level without turning it, measured in five seconds off and five on. */
const handMeasured = z.strictObject({
	kind: z.literal('hand measured'),
	step: z.string(),
	adjuster: z.string(),
	stepDb: estimate,
	flutterDb: z.number(),
	/** Both are of the input, by the set's AVC law; absent: of the reading. */
	at: z.optional(z.literal('input')),
});
/** What a step of 6 dB at the generator read. */
const stepRead = z.strictObject({
	kind: z.literal('6 dB step'),
	step: z.string(),
	stepDb: estimate,
	verdict: z.enum(['linear', 'too strong', 'more than 6 dB', 'nothing changed', 'uncertain']),
	/** What the step comes to at the input by an AVC law of the set, and whether that law still holds. */
	byLaw: z.optional(
		z.strictObject({ law: id, inputDb: estimate, verdict: z.enum(['holds', 'holds no more', 'uncertain']) }),
	),
});
/** No further pass of the steps that this step asks to be repeated. */
const repeatLeft = z.strictObject({ kind: z.literal('repeat left'), step: z.string() });
/** The last reading before a pause, read once more after it; `differs` begins comparison anew. */
const reproduced = z.strictObject({
	kind: z.literal('reproduced'),
	verdict: z.enum(['as left', 'differs', 'not read']),
	differenceDb: z.nullable(estimate),
});
const note = z.strictObject({ kind: z.literal('note'), step: z.optional(z.string()), text });
const struck = z.strictObject({ kind: z.literal('struck'), entry: id, why: text });
const resumed = z.strictObject({ kind: z.literal('resumed') });
const ended = z.strictObject({ kind: z.literal('ended'), how: z.enum(['done', 'left']) });

/** What happened, as it is kept; nothing is ever rewritten: a mistake is struck by a later entry. */
export const happening = z.discriminatedUnion('kind', [
	started,
	gatePassed,
	stepBegun,
	stepDone,
	level,
	adjusted,
	generatorLevel,
	handMeasured,
	stepRead,
	repeatLeft,
	reproduced,
	testGear,
	testReading,
	sweepBegun,
	sweepPointRead,
	sweepFileRead,
	sweepNamed,
	sweptReading,
	testAnswered,
	heardSound,
	dialReading,
	dialGear,
	dialActDone,
	generatorCheck,
	generatorTrial,
	avcLawBegun,
	avcStep,
	avcLawEnded,
	note,
	struck,
	resumed,
	ended,
]);
export type Happening = z.infer<typeof happening>;

/**
 * One line of a run's journal. `id` is made by the writer and makes sending again harmless;
 * `order` counts from 0 within the run; `atMs` is the writer's clock, milliseconds since 1970.
 */
export const runEntry = z.strictObject({
	id,
	run: id,
	order: z.number().check(z.int(), z.minimum(0)),
	atMs: moment,
	what: happening,
});
export type RunEntry = z.infer<typeof runEntry>;

const kinds = happening._zod.propValues.kind;
/**
 * An entry by its outline alone, for the thousands of a long run, all of which were checked in full when they were kept:
 * `id`, `run`, place and a kind that this version knows.
 */
export const entryOutline = z.custom<RunEntry>((one) => {
	const { id, run, order, what } = (one ?? {}) as Partial<RunEntry>;
	return typeof id === 'string' && typeof run === 'string' && typeof order === 'number' && kinds?.has(what?.kind);
});
