import * as z from 'zod/mini';
import { quantity } from './quantity.ts';

/** Kinds of supply; `ac-dc` sets may have a live chassis. */
const supply = z.enum(['ac-dc', 'transformer', 'battery', 'unknown']);
/** What the return of the set's circuits is connected to. */
const common = z.enum(['chassis', 'separate B-minus', 'unknown']);

const id = z.string().check(z.regex(/^[a-z0-9][a-z0-9-]{0,39}$/));
const shortText = z.string().check(z.maxLength(200));
const longText = z.string().check(z.maxLength(20_000));
/** Place on a drawing: 0 to 1 from its left and from its upper edge. */
const fraction = z.number().check(z.minimum(0), z.maximum(1));

/** A tube or a transistor in its stage. */
const tube = z.strictObject({ stage: shortText, type: shortText });

const intermediateUse = z.enum(['AM', 'FM', 'first of two', 'second of two']);
const intermediateFrequency = z.strictObject({
	frequency: quantity('frequency'),
	use: z.optional(intermediateUse),
	source: z.optional(shortText),
});

const band = z.strictObject({
	id,
	name: z.optional(shortText),
	low: quantity('frequency'),
	high: quantity('frequency'),
	modulation: z.optional(z.enum(['AM', 'FM'])),
	oscillator: z.optional(z.enum(['above', 'below', 'unknown'])),
	/** Where the oscillator's trimmer sits. */
	network: z.optional(z.enum(['gang', 'coil', 'unknown'])),
	lowEnd: z.optional(z.enum(['padder', 'slug', 'none', 'unknown'])),
	/** Frequencies at which the maker says to align, high end first. */
	alignAt: z.optional(z.array(quantity('frequency')).check(z.maxLength(5))),
	/** Bands to be aligned before this one, by id. */
	after: z.optional(z.array(id).check(z.maxLength(10))),
});

const scale = z.strictObject({
	band: id,
	shape: z.optional(z.enum(['straight', 'arc', 'unknown'])),
	travel: z.optional(quantity('length')),
	marks: z.optional(z.array(quantity('frequency')).check(z.maxLength(100))),
	/** Where each of the marks stands, in their order, measured along the scale from any one point; on an arc along the arc that the pointer's tip runs on. */
	places: z.optional(z.array(quantity('place')).check(z.maxLength(100))),
});

const adjuster = z.strictObject({
	id,
	/** What the chassis or the maker's sheet calls it. */
	name: shortText,
	stage: z.enum(['IF', 'oscillator', 'antenna', 'RF', 'wave trap', 'detector', 'filter', 'other']),
	/** Which IF transformer, counted from the converter, or which RF stage, counted from the antenna, beginning with 1. */
	transformer: z.optional(z.number().check(z.int(), z.minimum(1), z.maximum(9))),
	winding: z.optional(z.enum(['primary', 'secondary', 'third'])),
	end: z.optional(z.enum(['high', 'low'])),
	bands: z.optional(z.array(id).check(z.maxLength(10))),
	/** Which of several IFs it belongs to, as `use` of that IF says. */
	use: z.optional(intermediateUse),
	kind: z.enum(['compression trimmer', 'air trimmer', 'padder', 'slug', 'other']),
	where: z.optional(z.enum(['top', 'under', 'front', 'back'])),
	x: z.optional(fraction),
	y: z.optional(fraction),
	clockwise: z.optional(z.enum(['adds', 'takes away', 'unknown'])),
	highVoltage: z.optional(z.enum(['yes', 'no', 'unknown'])),
	condition: z.optional(z.enum(['free', 'stuck', 'broken', 'sealed', 'cracked', 'unknown'])),
});

/** Set card, version 1: what is known of one receiver. Quantities are kept in the words that were typed. */
export const setCardSchema = z.strictObject({
	schema: z.literal('peakwright/set-card'),
	version: z.literal(1),
	id: z.optional(id),
	maker: z.optional(shortText),
	model: z.optional(shortText),
	chassis: z.optional(shortText),
	year: z.optional(z.number().check(z.int(), z.minimum(1900), z.maximum(2100))),
	circuit: z.optional(z.enum(['superhet', 'TRF', 'reflex', 'other'])),
	active: z.optional(z.enum(['tubes', 'transistors', 'mixed'])),
	supply,
	common: z.optional(common),
	/** Tubes or transistors by stage. */
	tubes: z.optional(z.array(tube).check(z.maxLength(40))),
	ifDesigned: z.optional(z.array(intermediateFrequency).check(z.maxLength(6))),
	ifFound: z.optional(z.array(intermediateFrequency).check(z.maxLength(6))),
	bands: z.optional(z.array(band).check(z.maxLength(12))),
	scales: z.optional(z.array(scale).check(z.maxLength(12))),
	tuning: z.optional(z.enum(['gang', 'permeability', 'unknown'])),
	gang: z.optional(
		z.strictObject({
			sections: z.optional(z.number().check(z.int(), z.minimum(1), z.maximum(6))),
			capacitance: z.optional(quantity('capacitance')),
			cutPlates: z.optional(z.enum(['yes', 'no', 'unknown'])),
		}),
	),
	/** Where the converter's signal grid can be reached. */
	converterGrid: z.optional(z.enum(['grid cap', 'pin', 'unknown'])),
	/** How the IF curve is meant: what was meant wide is not peaked narrow. */
	ifCurve: z.optional(z.enum(['single peak', 'overcoupled', 'staggered', 'selectivity switch', 'unknown'])),
	adjusters: z.optional(z.array(adjuster).check(z.maxLength(80))),
	waveTrap: z.optional(z.enum(['yes', 'no', 'unknown'])),
	antenna: z.optional(z.enum(['wire', 'loop', 'rod', 'car', 'unknown'])),
	avc: z.optional(z.enum(['none', 'simple', 'delayed', 'unknown'])),
	detector: z.optional(z.enum(['diode', 'grid leak', 'plate', 'crystal', 'other', 'unknown'])),
	fmDetector: z.optional(z.enum(['discriminator', 'ratio detector', 'slope', 'other', 'unknown'])),
	outputPower: z.optional(quantity('power')),
	voiceCoil: z.optional(quantity('resistance')),
	/** The simulated receiver that this card describes, if it is one. */
	virtualSet: z.optional(id),
	notes: z.optional(longText),
});

export type SetCard = z.infer<typeof setCardSchema>;
export type Adjuster = z.infer<typeof adjuster>;
export type Band = z.infer<typeof band>;
export type Supply = z.infer<typeof supply>;

/** The set card's form as JSON Schema, for editors and other programs; quantities are strings whose units only this program checks. */
export function setCardJsonSchema(): object {
	return z.toJSONSchema(setCardSchema, { io: 'input' });
}
