import * as z from 'zod/mini';

/** An instrument as a person named it: its place, empty while none was named, and the text of its description where it needs one. */
export const namedInstrument = z.strictObject({
	place: z.string().check(z.maxLength(200)),
	description: z.nullable(z.string().check(z.maxLength(100_000))),
});
export type NamedInstrument = z.infer<typeof namedInstrument>;

/** The instruments that the program drives. */
export const namedInstruments = z.strictObject({ generator: namedInstrument, meter: namedInstrument });
export type NamedInstruments = z.infer<typeof namedInstruments>;

/** Before any was named. */
export const noInstruments: NamedInstruments = {
	generator: { place: '', description: null },
	meter: { place: '', description: null },
};
