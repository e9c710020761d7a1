import * as z from 'zod/mini';
import type { Parsed } from './parsed.ts';
import { moment, runEntry } from './run.ts';
import { setCardSchema } from './set-card.ts';
import { jsonFault } from './shown-words.ts';

/** What an export carries: every version of each card, oldest first, and every entry of each run. */
const exchangeSchema = z.strictObject({
	schema: z.literal('peakwright/export'),
	version: z.literal(1),
	sets: z.array(
		z.strictObject({
			id: z.string().check(z.regex(/^[a-z0-9][a-z0-9-]{0,39}$/)),
			cards: z.array(z.strictObject({ changedAtMs: moment, card: setCardSchema })).check(z.minLength(1)),
			entries: z.array(runEntry),
		}),
	),
});

/** One export, as read or to be written. */
export type Exchange = z.infer<typeof exchangeSchema>;

/** The export in a file's text, or what is wrong with it and where; it is taken whole or not at all. */
export function parseExchange(text: string): Parsed<Exchange> {
	let value: unknown;
	try {
		value = JSON.parse(text);
	} catch (error) {
		return { ok: false, words: jsonFault(text, error) };
	}
	const result = exchangeSchema.safeParse(value);
	if (result.success) return { ok: true, value: result.data };
	const [first] = result.error.issues;
	return {
		ok: false,
		words: `this is not an export of Peakwright: ${first?.path.map(String).join(', ') || 'the whole'}: ${first?.message ?? 'not as expected'}`,
	};
}
