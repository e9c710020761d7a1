import type { Sharp } from 'sharp';
import type { Parsed } from '#record/parsed.ts';
import { givenPhotoBytes, keptPhotoBytes, photoSidePx } from '#record/photo.ts';

/** A picture as it is kept: a JPEG without anything beside it, such as the place where it was taken. */
export interface Picture {
	readonly bytes: Uint8Array;
	readonly widthPx: number;
	readonly heightPx: number;
}

/** Most pixels that are unpacked, so that a small file cannot fill the memory; telephones make up to 108 million. Chosen. */
const mostPixels = 120_000_000;
const longestS = 20;
/** Quality of the JPEG: print fineness cannot be told from the original's. Chosen. */
const quality = 82;

const refused = (words: string): Parsed<never> => ({ ok: false, words });

/** Kinds of file by how they begin; a name or its ending says nothing. */
const beginnings: readonly { readonly kind: string; readonly pattern: RegExp }[] = [
	{ kind: 'JPEG', pattern: /^\xff\xd8\xff/ },
	{ kind: 'PNG', pattern: /^\x89PNG\r\n/ },
	{ kind: 'WebP', pattern: /^RIFF[\s\S]{4}WEBP/ },
	{ kind: 'GIF', pattern: /^GIF8/ },
	{ kind: 'HEIC or AVIF', pattern: /^[\s\S]{4}ftyp(hei|hev|mif1|msf1|avif)/ },
	{ kind: 'TIFF or a raw picture', pattern: /^(II\*\0|MM\0\*)/ },
	{ kind: 'PDF', pattern: /^%PDF/ },
	{ kind: 'a drawing (SVG)', pattern: /^\s*(<\?xml|<!DOCTYPE svg|<svg)/i },
];
const taken = ['JPEG', 'PNG', 'WebP'];
const wanted = 'give a photograph as JPEG, PNG or WebP';

function kindOf(bytes: Uint8Array): string {
	const head = Buffer.from(bytes.buffer, bytes.byteOffset, Math.min(bytes.byteLength, 512)).toString('latin1');
	return beginnings.find(({ pattern }) => pattern.test(head))?.kind ?? 'no picture that is known here';
}

/** Whether a PNG says that it moves: its control chunk stands before the picture. */
function isMovingPng(bytes: Uint8Array): boolean {
	const text = Buffer.from(bytes.buffer, bytes.byteOffset, Math.min(bytes.byteLength, 1_000_000));
	const at = text.indexOf('acTL');
	return at > 0 && at < text.indexOf('IDAT');
}

async function opened(bytes: Uint8Array): Promise<Sharp> {
	// Loaded when it is first needed: the library behind it is large.
	const { default: sharp } = await import('sharp');
	sharp.cache(false);
	return sharp(bytes, { limitInputPixels: mostPixels, failOn: 'warning' }).timeout({ seconds: longestS });
}

/** What the library says, in a sentence for the person. */
function fault(error: unknown): Parsed<never> {
	const said = error instanceof Error ? error.message : String(error);
	if (/pixel limit/i.test(said)) return refused('this picture has too many pixels to be unpacked: make it smaller');
	if (/timeout/i.test(said)) return refused('this picture takes too long to be unpacked: make it smaller');
	return refused('this picture is damaged or cut short: take or copy it once more');
}

/**
 * A photograph from a file's content: turned upright, made small enough to be kept, and with all that stood beside the picture
 * (place, time, camera, thumbnails) left behind; or why it is not taken.
 */
export async function pictureFrom(bytes: Uint8Array): Promise<Parsed<Picture>> {
	if (bytes.byteLength === 0) return refused(`this file is empty: ${wanted}`);
	if (bytes.byteLength > givenPhotoBytes) return refused(tooLargePhoto);
	const kind = kindOf(bytes);
	if (!taken.includes(kind)) return refused(`this is ${kind}, whatever its name says: ${wanted}`);
	try {
		const { pages = 1 } = await (await opened(bytes)).metadata();
		if (pages > 1 || (kind === 'PNG' && isMovingPng(bytes)))
			return refused(`this picture moves, and paper does not: ${wanted}`);
		const { data, info } = await (await opened(bytes))
			.autoOrient()
			.resize({ width: photoSidePx, height: photoSidePx, fit: 'inside', withoutEnlargement: true })
			.flatten({ background: '#fff' })
			.jpeg({ quality })
			.toBuffer({ resolveWithObject: true });
		return { ok: true, value: { bytes: data, widthPx: info.width, heightPx: info.height } };
	} catch (error) {
		return fault(error);
	}
}

/** What is said of a file that is too large to be read as a photograph. */
export const tooLargePhoto = `this file has more than ${givenPhotoBytes / 1e6} megabytes: have the camera make it smaller`;

/** What is wrong with a picture that another shelf kept: it has to be a whole JPEG of this size with nothing beside it. `null`: nothing. */
export async function pictureFault({ bytes, widthPx, heightPx }: Picture): Promise<string | null> {
	if (bytes.byteLength > keptPhotoBytes) return 'it is larger than any that is kept';
	if (kindOf(bytes) !== 'JPEG') return 'it is no JPEG';
	try {
		const { width, height, exif, xmp, iptc } = await (await opened(bytes)).metadata();
		if (width !== widthPx || height !== heightPx) return 'it is not of the size that is said';
		if (exif || xmp || iptc) return 'it carries more than the picture, such as where it was taken';
		await (await opened(bytes)).stats();
		return null;
	} catch {
		return 'it is damaged';
	}
}
