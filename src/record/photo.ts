import * as z from 'zod/mini';

const adjusterId = z.string().check(z.regex(/^[a-z0-9][a-z0-9-]{0,39}$/));
const photoId = z.string().check(z.regex(/^[A-Za-z0-9][A-Za-z0-9_-]{0,63}$/));
const fraction = z.number().check(z.minimum(0), z.maximum(1));
const pixels = z.number().check(z.int(), z.minimum(1), z.maximum(10_000));

/** What a photograph shows of the set. */
export const photoViews = ['top', 'under', 'tuning head', 'front', 'back', 'part'] as const;
/** When it was taken, as far as that matters: the report sets `before` beside `after`. */
export const photoMoments = ['before', 'after', 'any time'] as const;

/** Where an adjuster sits on a photograph: 0 to 1 from its left and from its upper edge. */
const photoPlace = z.strictObject({ adjuster: adjusterId, x: fraction, y: fraction });

/** What a person says of a photograph. */
export const photoWords = z.strictObject({
	view: z.enum(photoViews),
	moment: z.enum(photoMoments),
	caption: z.string().check(z.maxLength(200)),
	places: z.array(photoPlace).check(z.maxLength(80)),
});
export type PhotoWords = z.infer<typeof photoWords>;

/** A photograph kept with its set, without its picture. `addedAtMs`: milliseconds since 1970. */
export const photo = z.extend(photoWords, { id: photoId, addedAtMs: z.number(), widthPx: pixels, heightPx: pixels });
export type Photo = z.infer<typeof photo>;

/** Longer side of a picture that is kept, pixels: 250 to the inch across a page. Chosen. */
export const photoSidePx = 1600;
/** Largest picture that is kept, bytes; one of {@link photoSidePx} seldom has a tenth of it. Chosen. */
export const keptPhotoBytes = 4_000_000;
/** Largest file that is taken as a photograph, bytes: three times what telephones make. Chosen. */
export const givenPhotoBytes = 40_000_000;
/** Most photographs of one set. Chosen. */
export const photosOfSet = 60;
