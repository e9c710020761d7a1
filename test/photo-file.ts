import sharp from 'sharp';

/** A picture made here: a slope of grey with noise of its own, as JPEG with what a telephone puts beside it. */
export async function photoFile(widthPx = 2400, heightPx = 1800, seed = 1): Promise<Buffer> {
	let state = seed;
	const pixels = Buffer.alloc(widthPx * heightPx * 3);
	for (let at = 0; at < pixels.length; at++) {
		state = (Math.imul(state, 1_664_525) + 1_013_904_223) >>> 0;
		pixels[at] = 60 + (at % (3 * widthPx)) / (0.03 * widthPx) + (state >>> 28);
	}
	return sharp(pixels, { raw: { width: widthPx, height: heightPx, channels: 3 } })
		.withExif({ IFD0: { Make: 'Telephone' }, IFD3: { GPSLatitudeRef: 'N', GPSLatitude: '48/1 51/1 30/1' } })
		.jpeg()
		.toBuffer();
}
