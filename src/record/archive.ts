import * as z from 'zod/mini';
import type { Parsed } from './parsed.ts';
import { type Photo, photo } from './photo.ts';

const setId = '[a-z0-9][a-z0-9-]{0,39}';
const ownId = '[A-Za-z0-9][A-Za-z0-9_-]{0,63}';

/** The version of the archive that this program writes. */
const archiveVersion = 1;

/** What the list at the end of an archive says: every other file in it, with its length and the sum that proves it whole. */
const archiveList = z.strictObject({
	schema: z.literal('peakwright/archive'),
	version: z.literal(archiveVersion),
	files: z.array(
		z.strictObject({
			path: z.string(),
			bytes: z.number().check(z.int(), z.minimum(0)),
			sha256: z.string().check(z.regex(/^[0-9a-f]{64}$/)),
		}),
	),
});
export type ArchiveList = z.infer<typeof archiveList>;

/** What is said of the photographs of one set. */
const photoList = z.array(photo).check(z.maxLength(1000));

/** Name of the list in an archive. */
export const archiveListName = 'archive.json';

/** Paths within an archive. */
export const archivePaths = {
	set: (set: string): string => `sets/${set}/set.json`,
	photos: (set: string): string => `sets/${set}/photos.json`,
	picture: (set: string, id: string): string => `sets/${set}/photos/${id}.jpg`,
	report: (set: string, run: string): string => `sets/${set}/reports/${run}.pdf`,
};

/** What a file in an archive is, by its path. */
export type ArchivePlace =
	| { readonly kind: 'list' }
	| { readonly kind: 'set' | 'photos'; readonly set: string }
	| { readonly kind: 'picture' | 'report'; readonly set: string; readonly id: string };

const places: readonly (readonly [RegExp, (set: string, id: string) => ArchivePlace])[] = [
	[new RegExp(`^${archiveListName.replace('.', '\\.')}$`), () => ({ kind: 'list' })],
	[new RegExp(`^sets/(${setId})/set\\.json$`), (set) => ({ kind: 'set', set })],
	[new RegExp(`^sets/(${setId})/photos\\.json$`), (set) => ({ kind: 'photos', set })],
	[new RegExp(`^sets/(${setId})/photos/(${ownId})\\.jpg$`), (set, id) => ({ kind: 'picture', set, id })],
	[new RegExp(`^sets/(${setId})/reports/(${ownId})\\.pdf$`), (set, id) => ({ kind: 'report', set, id })],
];

/** What the file at a path of an archive is; `null`: nothing that belongs in one. */
export function archivePlace(path: string): ArchivePlace | null {
	for (const [pattern, place] of places) {
		const [found, set = '', id = ''] = pattern.exec(path) ?? [];
		if (found !== undefined) return place(set, id);
	}
	return null;
}

function read<Value>(text: string, what: string, schema: z.ZodMiniType<Value>): Parsed<Value> {
	let value: unknown;
	try {
		value = JSON.parse(text);
	} catch {
		return { ok: false, words: `${what} cannot be read` };
	}
	const result = schema.safeParse(value);
	return result.success ? { ok: true, value: result.data } : { ok: false, words: `${what} is not as it should be` };
}

/** The list in the text of an archive's own list, or why this program cannot use it. */
export function parseArchiveList(text: string): Parsed<ArchiveList> {
	const head = read(text, 'its list', z.looseObject({ schema: z.unknown(), version: z.unknown() }));
	if (!head.ok) return head;
	const { schema, version } = head.value;
	if (schema === 'peakwright/archive' && typeof version === 'number' && version > archiveVersion)
		return {
			ok: false,
			words: `it is of version ${version}, this program reads up to ${archiveVersion}; use a newer Peakwright`,
		};
	return read(text, 'its list', archiveList);
}

/** What is said of a set's photographs, in the text of an archive's file. */
export function parsePhotoList(text: string): Parsed<readonly Photo[]> {
	return read(text, 'what it says of the photographs', photoList);
}
