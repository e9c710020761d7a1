import * as z from 'zod/mini';

const size = z.number().check(z.minimum(0));
const hum = z.strictObject({ mainsHz: z.union([z.literal(50), z.literal(60)]), leads: z.enum(['mains', 'twice']) });

/** What a set gave out by itself while it was listened to. */
export const heardSound = z.strictObject({
	kind: z.literal('heard'),
	/** What the set was given meanwhile: nothing, or a carrier without tone. */
	generator: z.enum(['down', 'carrier']),
	source: z.enum(['sound input', 'virtual set']),
	lastedS: size,
	heard: z.strictObject({
		kind: z.enum(['quiet', 'hum', 'crackle', 'squeal', 'putting', 'tone']),
		besideTone: z.nullable(z.enum(['quiet', 'hum', 'crackle', 'squeal', 'putting'])),
		/** Rms, decibels below a full-scale sine. */
		levelDbfs: z.number(),
		clicksPerMinute: size,
		beat: z.nullable(z.strictObject({ perS: size, swingShare: size })),
		hum: z.nullable(hum),
		squealHz: z.nullable(size),
	}),
});
export type HeardSound = z.infer<typeof heardSound>;
