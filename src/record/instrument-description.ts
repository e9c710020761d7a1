import * as z from 'zod/mini';
import { decibelsOf, voltsOf } from './level-unit.ts';
import type { Parsed } from './parsed.ts';
import { jsonFault, shownWords } from './shown-words.ts';

const words = z.string().check(z.minLength(1), z.maxLength(200));
/** One line to the instrument; no line may hide a second one. */
const message = z.string().check(z.minLength(1), z.maxLength(200), z.regex(/^[\x20-\x7e]+$/));
/** A line with one place for the value. */
const valued = message.check(z.regex(/^[^{}]*\{\}[^{}]*$/));

/** Units in which an instrument takes a level; decibels and volts at 50 ohms count the generator matched, so that its open circuit has twice the volts. */
const levelUnit = z.enum(['V open circuit', 'V at 50 ohms', 'V peak to peak at 50 ohms', 'dBm at 50 ohms']);
/** Unit in which a generator takes its level. */
export type LevelUnit = z.infer<typeof levelUnit>;

function range<Unit extends z.ZodMiniType<string>>(unit: Unit) {
	return z
		.strictObject({ send: valued, unit, least: z.number(), most: z.number(), digits: z.optional(z.number()) })
		.check(
			z.refine(({ least, most }) => most >= least, { error: '"most" has to be at least "least"' }),
			z.refine(({ digits }) => digits === undefined || (Number.isInteger(digits) && digits >= 0 && digits <= 9), {
				error: '"digits" is how many stand after the point: 0 to 9',
			}),
		);
}

const act = z.strictObject({ send: message });

const generatorVerbs = z.strictObject({
	'set frequency': range(z.enum(['Hz', 'kHz', 'MHz'])),
	'set level': range(levelUnit),
	'set modulation depth': z.optional(range(z.enum(['%']))),
	'set tone': z.optional(range(z.enum(['Hz', 'kHz']))),
	'modulation on': z.optional(act),
	'modulation off': z.optional(act),
	'output on': act,
	'output off': act,
});

const meterVerbs = z.strictObject({
	'read volts': z.strictObject({
		ask: message,
		unit: z.enum(['V', 'mV', 'dBV']),
		/** Standard uncertainty of one reading, in decibels. */
		uncertaintyDb: z.number().check(z.minimum(0), z.maximum(10)),
		quantity: z.enum(['tone', 'AVC volts', 'DC volts', 'AC volts']),
	}),
});

/** How an instrument is spoken to: what a person writes once for an instrument at hand. */
const instrumentDescription = z.strictObject({
	schema: z.literal('peakwright/instrument'),
	version: z.literal(1),
	name: words,
	notes: z.optional(z.string().check(z.maxLength(4000))),
	/** What has to stand in the answer to *IDN?, so that no other instrument is taken for this one. */
	identity: z.optional(words),
	/** What ends a line, both ways. */
	terminator: z.optional(z.enum(['LF', 'CR LF', 'CR'])),
	/** The longest it takes to answer. */
	replyWithinMs: z.optional(z.number().check(z.minimum(50), z.maximum(60_000))),
	/** Query for the oldest error; `none` for an instrument without a queue. */
	errorQueue: z.optional(message),
	/** Time for the output to stand still after it was set. */
	settleMs: z.optional(z.number().check(z.minimum(0), z.maximum(60_000))),
	baud: z.optional(z.number().check(z.int(), z.minimum(300), z.maximum(4_000_000))),
	generator: z.optional(generatorVerbs),
	meter: z.optional(meterVerbs),
});
/** How an instrument is spoken to: what a person writes once for an instrument at hand. */
export type InstrumentDescription = z.infer<typeof instrumentDescription>;

/** What a generator understands. */
export type GeneratorVerbs = z.infer<typeof generatorVerbs>;
/** What a meter understands. */
export type MeterVerbs = z.infer<typeof meterVerbs>;
/** A verb with a value: the line, the unit and the ends of its range in that unit. */
export type RangedVerb = NonNullable<
	GeneratorVerbs['set frequency' | 'set level' | 'set modulation depth' | 'set tone']
>;

/**
 * An instrument that keeps to IEEE 488.2 and SCPI-1999 [scpi-1999]; the ranges are wide and the instrument's own limits refuse the rest.
 */
export const genericInstrument: InstrumentDescription = {
	schema: 'peakwright/instrument',
	version: 1,
	name: 'any SCPI-1999 instrument',
	generator: {
		'set frequency': { send: 'SOUR:FREQ:CW {}', unit: 'Hz', least: 1e3, most: 1e9, digits: 0 },
		'set level': { send: 'SOUR:POW:LEV:IMM:AMPL {}', unit: 'dBm at 50 ohms', least: -140, most: 10, digits: 2 },
		'set modulation depth': { send: 'SOUR:AM:DEPT {}', unit: '%', least: 0, most: 95, digits: 1 },
		'set tone': { send: 'SOUR:AM:INT:FREQ {}', unit: 'Hz', least: 50, most: 10_000, digits: 1 },
		'modulation on': { send: 'SOUR:AM:STAT ON' },
		'modulation off': { send: 'SOUR:AM:STAT OFF' },
		'output on': { send: 'OUTP:STAT ON' },
		'output off': { send: 'OUTP:STAT OFF' },
	},
	meter: { 'read volts': { ask: 'MEAS:VOLT:AC?', unit: 'V', uncertaintyDb: 0.1, quantity: 'AC volts' } },
};

const inUnit: Readonly<Record<RangedVerb['unit'], (value: number) => number>> = {
	Hz: (hertz) => hertz,
	kHz: (hertz) => hertz / 1e3,
	MHz: (hertz) => hertz / 1e6,
	'%': (share) => share * 100,
	'V open circuit': (volts) => volts,
	'V at 50 ohms': (volts) => volts / 2,
	'V peak to peak at 50 ohms': (volts) => volts * Math.SQRT2,
	'dBm at 50 ohms': decibelsOf,
};

const inSi: Readonly<Record<RangedVerb['unit'], (value: number) => number>> = {
	Hz: (hertz) => hertz,
	kHz: (kilohertz) => kilohertz * 1e3,
	MHz: (megahertz) => megahertz * 1e6,
	'%': (percent) => percent / 100,
	'V open circuit': (volts) => volts,
	'V at 50 ohms': (volts) => volts * 2,
	'V peak to peak at 50 ohms': (volts) => volts / Math.SQRT2,
	'dBm at 50 ohms': voltsOf,
};

/** How far off a setting may come to be by its digits: 100 c, a point of depth, half a decibel of level (chosen: what a reading bears without being another one). */
const mostRounded = { frequencyHz: 100, depthPercent: 1, levelDb: 0.5 } as const;

/** Whether the digits of a value say another one, both in the verb's unit. */
function isRoundedAway(unit: RangedVerb['unit'], value: number, digits: string): boolean {
	const off = Math.abs(Number(digits) - value);
	switch (unit) {
		case 'Hz':
		case 'kHz':
		case 'MHz':
			return off > inUnit[unit](mostRounded.frequencyHz) * (1 + 1e-9);
		case '%':
			return off > mostRounded.depthPercent;
		case 'dBm at 50 ohms':
			return off > mostRounded.levelDb * (1 + 1e-9);
		default:
			return off > 0 && !(Math.abs(20 * Math.log10(Number(digits) / value)) <= mostRounded.levelDb);
	}
}

/** The digits of a value in a verb's unit. */
function digitsOf({ unit, digits }: RangedVerb, value: number): string {
	const own = inUnit[unit](value);
	return digits === undefined ? String(Number(own.toPrecision(10))) : own.toFixed(digits);
}

/**
 * What a verb makes of a value by its digits: hertz, open-circuit volts rms, or modulation depth from 0 to 1, as it goes out.
 * @example sentValue({ send: 'FREQ {}', unit: 'kHz', least: 100, most: 2000, digits: 1 }, 455_040) // => 455000
 */
export function sentValue(verb: RangedVerb, value: number): number {
	return inSi[verb.unit](Number(digitsOf(verb, value)));
}

/**
 * The line that sets a value, or why it is refused: what lies outside the instrument's range, or what its digits would make another value of, is never sent.
 * @param value hertz, open-circuit volts rms, or modulation depth from 0 to 1
 * @example settingLine({ send: 'FREQ {}', unit: 'kHz', least: 100, most: 2000 }, 455e3, 'frequency') // => { ok: true, value: 'FREQ 455' }
 */
export function settingLine(verb: RangedVerb, value: number, what: string): Parsed<string> {
	const own = inUnit[verb.unit](value);
	if (!(own >= verb.least && own <= verb.most)) {
		return {
			ok: false,
			words: `${what}: ${Number(own.toPrecision(6))} ${verb.unit} is outside what the instrument takes, ${verb.least} to ${verb.most} ${verb.unit}; nothing was sent`,
		};
	}
	const digits = digitsOf(verb, value);
	if (isRoundedAway(verb.unit, own, digits)) {
		return {
			ok: false,
			words: `${what}: ${Number(own.toPrecision(6))} ${verb.unit} would go out as ${digits}: give its description more "digits"; nothing was sent`,
		};
	}
	return { ok: true, value: verb.send.replace('{}', digits) };
}

/** The lines that set the least and the most that a verb takes. */
export function rangeEnds({ send, least, most, digits }: RangedVerb): readonly [string, string] {
	const line = (value: number): string =>
		send.replace('{}', digits === undefined ? String(value) : value.toFixed(digits));
	return [line(least), line(most)];
}

/** The description in the text of a file, or what is wrong with it and where. */
export function parseInstrumentDescription(text: string): Parsed<InstrumentDescription> {
	if (text.length > 100_000) return { ok: false, words: 'this is not a description of an instrument: it is too long' };
	let value: unknown;
	try {
		value = JSON.parse(text);
	} catch (error) {
		return { ok: false, words: jsonFault(text, error) };
	}
	const result = instrumentDescription.safeParse(value);
	if (result.success) return { ok: true, value: result.data };
	const [first] = result.error.issues;
	const keys =
		first?.code === 'unrecognized_keys'
			? `nothing called ${first.keys.map((key) => `"${shownWords(key)}"`).join(', ')} belongs here`
			: (first?.message ?? 'not a description of an instrument');
	const at = first && first.path.length > 0 ? `${first.path.map(String).join(', ')}: ` : '';
	return { ok: false, words: `${at}${keys}` };
}

/** The form of a description as JSON Schema, for editors. */
export function instrumentJsonSchema(): object {
	return z.toJSONSchema(instrumentDescription, { io: 'input' });
}
