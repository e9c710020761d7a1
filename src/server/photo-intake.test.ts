import { deflateSync } from 'node:zlib';
import sharp from 'sharp';
import { expect, test } from 'vitest';
import { photoFile } from '../../test/photo-file.ts';
import { pictureFault, pictureFrom } from './photo-intake.ts';

/** A PNG by its parts; the sums of the parts are right. */
function png(...chunks: readonly (readonly [name: string, data: Buffer])[]): Buffer {
	const table = Array.from({ length: 256 }, (_, byte) => {
		let sum = byte;
		for (let bit = 0; bit < 8; bit++) sum = sum & 1 ? 0xedb88320 ^ (sum >>> 1) : sum >>> 1;
		return sum >>> 0;
	});
	const crc = (data: Buffer): number =>
		(data.reduce((sum, byte) => (table[(sum ^ byte) & 255] as number) ^ (sum >>> 8), 0xffffffff) ^ 0xffffffff) >>> 0;
	const word = (value: number): Buffer => {
		const bytes = Buffer.alloc(4);
		bytes.writeUInt32BE(value >>> 0);
		return bytes;
	};
	const parts = chunks.map(([name, data]) => {
		const body = Buffer.concat([Buffer.from(name, 'latin1'), data]);
		return Buffer.concat([word(data.length), body, word(crc(body))]);
	});
	return Buffer.concat([Buffer.from('\x89PNG\r\n\x1a\n', 'latin1'), ...parts]);
}

function pngHead(widthPx: number, heightPx: number): Buffer {
	const head = Buffer.alloc(13);
	head.writeUInt32BE(widthPx, 0);
	head.writeUInt32BE(heightPx, 4);
	head[8] = 8;
	return head;
}

const refused = async (bytes: Uint8Array): Promise<string> => {
	const picture = await pictureFrom(bytes);
	return picture.ok ? 'taken' : picture.words;
};

test('a photograph is made small, turned upright, and loses all that tells where and by what it was taken', async () => {
	const given = await sharp(await photoFile(2400, 1800))
		.keepExif()
		.withMetadata({ orientation: 6 })
		.toBuffer();
	expect((await sharp(given).metadata()).exif?.toString('latin1')).toContain('Telephone');
	const picture = await pictureFrom(given);
	if (!picture.ok) throw new Error(picture.words);
	expect([picture.value.widthPx, picture.value.heightPx]).toEqual([1200, 1600]);
	const kept = await sharp(picture.value.bytes).metadata();
	expect(kept).toMatchObject({ format: 'jpeg', width: 1200, height: 1600 });
	for (const beside of [kept.exif, kept.xmp, kept.iptc, kept.icc]) expect(beside).toBeUndefined();
	expect(Buffer.from(picture.value.bytes).toString('latin1')).not.toMatch(/Exif|Telephone|GPS/);
	expect(await pictureFault(picture.value)).toBeNull();
});

test('a small picture stays as large as it is; PNG and WebP are taken too', async () => {
	const small = sharp({ create: { width: 40, height: 30, channels: 4, background: '#0000' } });
	for (const bytes of [await small.png().toBuffer(), await small.webp().toBuffer()]) {
		const picture = await pictureFrom(bytes);
		expect(picture).toMatchObject({ ok: true, value: { widthPx: 40, heightPx: 30 } });
	}
});

test('what is no still photograph is refused by its content, whatever its name says', async () => {
	const drawing =
		'<svg xmlns="http://www.w3.org/2000/svg"><script>alert(1)</script><image href="file:///etc/passwd"/></svg>';
	const two = await sharp(
		Buffer.alloc(
			2 * 8 * 8 * 3,
			Uint8Array.from({ length: 384 }, (_, at) => (at < 192 ? 0 : 255)),
		),
		{ raw: { width: 8, height: 16, channels: 3, pageHeight: 8 } },
	)
		.webp({ loop: 0 })
		.toBuffer();
	const moving = png(
		['IHDR', pngHead(1, 1)],
		['acTL', Buffer.from([0, 0, 0, 2, 0, 0, 0, 0])],
		['IDAT', deflateSync(Buffer.alloc(2))],
		['IEND', Buffer.alloc(0)],
	);
	for (const [bytes, words] of [
		[Buffer.alloc(0), /^this file is empty: give a photograph as JPEG, PNG or WebP$/],
		[Buffer.from(drawing), /^this is a drawing \(SVG\), whatever its name says/],
		[Buffer.from(`<?xml version="1.0"?>${drawing}`), /^this is a drawing/],
		[Buffer.from('GIF89a....'), /^this is GIF/],
		[Buffer.from('%PDF-1.7'), /^this is PDF/],
		[Buffer.from('....ftypheic', 'latin1'), /^this is HEIC or AVIF/],
		[Buffer.from('MZ an image, honestly.jpg'), /^this is no picture that is known here/],
		[two, /^this picture moves/],
		[moving, /^this picture moves/],
		[Buffer.alloc(100_000_000, 0xff), /^this file has more than 40 megabytes/],
	] as const)
		expect(await refused(bytes)).toMatch(words);
});

test('a damaged, bursting or hostile photograph is refused in a sentence and does no harm', async () => {
	const whole = await photoFile(400, 300);
	expect(await refused(whole.subarray(0, whole.length >> 1))).toMatch(/^this picture is damaged or cut short/);
	expect(await refused(Buffer.from('\xff\xd8\xff\xe0 nothing behind it', 'latin1'))).toMatch(
		/^this picture is damaged/,
	);
	const bursting = png(
		['IHDR', pngHead(60_000, 60_000)],
		['IDAT', deflateSync(Buffer.alloc(10))],
		['IEND', Buffer.alloc(0)],
	);
	expect(await refused(bursting)).toMatch(/^this picture has too many pixels/);
	const sizeless = png(['IHDR', pngHead(0, 0)], ['IDAT', deflateSync(Buffer.alloc(0))], ['IEND', Buffer.alloc(0)]);
	expect(await refused(sizeless)).toMatch(/^this picture is damaged/);
	// An Exif block whose first directory says that it begins far behind the file's end.
	const exif = Buffer.concat([
		Buffer.from('\xff\xe1\x00\x16Exif\0\0MM\0*\xff\xff\xff\xf0\xff\xff\xff\xff\xff\xff', 'latin1'),
	]);
	const hostile = Buffer.concat([whole.subarray(0, 2), exif, whole.subarray(2)]);
	const picture = await pictureFrom(hostile);
	if (picture.ok) expect(Buffer.from(picture.value.bytes).toString('latin1')).not.toContain('Exif');
	else expect(picture.words).toMatch(/^this picture is damaged/);
});

test('what another shelf calls a kept picture is looked at before it is believed', async () => {
	const bytes = await photoFile(400, 300);
	expect(await pictureFault({ bytes, widthPx: 400, heightPx: 300 })).toMatch(/more than the picture/);
	expect(await pictureFault({ bytes, widthPx: 300, heightPx: 400 })).toMatch(/not of the size/);
	expect(await pictureFault({ bytes: Buffer.from('<svg/>'), widthPx: 1, heightPx: 1 })).toBe('it is no JPEG');
	const picture = await pictureFrom(bytes);
	if (!picture.ok) throw new Error(picture.words);
	const cut = { ...picture.value, bytes: picture.value.bytes.subarray(0, 2000) };
	expect(await pictureFault(cut)).toBe('it is damaged');
});
