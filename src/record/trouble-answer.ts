import * as z from 'zod/mini';

const name = z.string().check(z.regex(/^[a-z0-9-]{1,40}$/));

/** What a test of a trouble came to, as the person answered it; names that a later program does not know count for nothing there. */
export const testAnswered = z.strictObject({
	kind: z.literal('test answered'),
	trouble: name,
	test: name,
	outcome: name,
	/** The reading as typed. */
	words: z.optional(z.string().check(z.maxLength(200))),
});
