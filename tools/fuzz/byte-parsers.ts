/** Readers of bytes: recordings, and what instruments send. */
import sharp from 'sharp';
import { measureTone } from '../../src/core/signal/tone.ts';
import { ReplyReader } from '../../src/instruments/scpi/reply-reader.ts';
import { parseWav } from '../../src/record/wav.ts';
import { pictureFrom } from '../../src/server/photo-intake.ts';
import { type FuzzedParser, holds, refusal } from './parser.ts';

/** A recording of 400 c, written by hand from the layout of the format. */
function wave(bits: 8 | 16 | 24 | 32, format: 1 | 3, channels: number, frames: number): Uint8Array {
	const bytes = bits / 8;
	const buffer = Buffer.alloc(44 + frames * channels * bytes);
	buffer.write('RIFF', 0, 'latin1');
	buffer.writeUInt32LE(buffer.length - 8, 4);
	buffer.write('WAVEfmt ', 8, 'latin1');
	buffer.writeUInt32LE(16, 16);
	buffer.writeUInt16LE(format, 20);
	buffer.writeUInt16LE(channels, 22);
	buffer.writeUInt32LE(8000, 24);
	buffer.writeUInt32LE(8000 * channels * bytes, 28);
	buffer.writeUInt16LE(channels * bytes, 32);
	buffer.writeUInt16LE(bits, 34);
	buffer.write('data', 36, 'latin1');
	buffer.writeUInt32LE(buffer.length - 44, 40);
	for (let k = 0; k < frames * channels; k++) {
		const value = 0.5 * Math.sin((2 * Math.PI * 400 * Math.floor(k / channels)) / 8000);
		const at = 44 + k * bytes;
		if (format === 3) buffer.writeFloatLE(value, at);
		else if (bits === 8) buffer.writeUInt8(Math.round(127 * value + 128), at);
		else buffer.writeIntLE(Math.round(value * (2 ** (bits - 1) - 1)), at, bytes);
	}
	return buffer;
}

/** Longest sound whose tone is measured too: the reader is what is tried. */
const mostMeasured = 4000;

const wav: FuzzedParser = {
	name: 'wav',
	form: 'bytes',
	begins: [wave(16, 1, 1, 400), wave(8, 1, 2, 200), wave(24, 1, 1, 200), wave(32, 3, 1, 400)],
	words: ['RIFF', 'WAVE', 'fmt ', 'data', 'LIST', '\u0010\u0000\u0000\u0000', '\u0001\u0000', '\u00ff\u00ff'],
	judge(input) {
		const read = parseWav(input);
		if (!read.ok) return refusal(read.words);
		const { channels, sampleRateHz } = read.value;
		const [first] = channels;
		holds(
			first !== undefined && first.length > 0 && channels.every(({ length }) => length === first.length),
			'channels of other lengths',
		);
		holds(sampleRateHz >= 8000 && sampleRateHz <= 192_000, `a rate of ${sampleRateHz}`);
		holds(
			channels.every((samples) => samples.every(Number.isFinite)),
			'a sample that is not finite',
		);
		if (first.length > mostMeasured) return 'long';
		const { verdict, levelDbfs, toneHz } = measureTone(first, sampleRateHz, null);
		for (const estimate of [levelDbfs, toneHz])
			holds(
				estimate === null || (Number.isFinite(estimate.value) && !Number.isNaN(estimate.uncertainty)),
				`verdict ${verdict} with ${JSON.stringify(estimate)}`,
			);
		return `${channels.length} ${verdict}`;
	},
};

const replies: FuzzedParser = {
	name: 'scpi',
	form: 'bytes',
	begins: [
		'Maker,Model,1,1.0\n',
		'1.234E-3\r\n0,"No error"\n',
		'#15hello\n+9.91E37\n',
		'-410,"Query INTERRUPTED"\n',
		'#HFF\n',
		'#0abc\n',
		'#9000000003xyz\n',
	],
	words: ['#', '#1', '#42048', '\n', '\r\n', '9.9E37', '-113,"Undefined header"', ';', ','],
	judge(input) {
		const whole = new ReplyReader('LF').take(input);
		const reader = new ReplyReader('LF');
		const pieces: unknown[] = [];
		// The same bytes as the line brings them, in pieces of one to seven.
		for (let at = 0, k = 0; at < input.length; k++) {
			const length = 1 + ((at + k) % 7);
			const came = reader.take(input.subarray(at, at + length));
			pieces.push(...came);
			at += length;
			if (came.some(({ kind }) => kind === 'garbled')) break;
		}
		holds(JSON.stringify(pieces) === JSON.stringify(whole), 'the replies depend on how the bytes were cut');
		for (const reply of whole) {
			if (reply.kind === 'garbled') refusal(reply.words);
			if (reply.kind === 'line')
				holds(!reply.text.includes('\n') && reply.text === reply.text.trim(), 'a line with its end in it');
		}
		return whole
			.map((reply) => (reply.kind === 'garbled' ? refusal(reply.words) : reply.kind))
			.join()
			.slice(0, 80);
	},
};

/** Small pictures of every kind that is taken. */
const still = sharp({ create: { width: 12, height: 9, channels: 3, background: '#a3211b' } });
const pictures = await Promise.all([
	still.clone().jpeg().toBuffer(),
	still.clone().png().toBuffer(),
	still.clone().webp().toBuffer(),
]);

const photos: FuzzedParser = {
	name: 'photos',
	form: 'bytes',
	begins: pictures,
	words: [
		'\u00ff\u00d8\u00ff',
		'Exif',
		'IHDR',
		'IDAT',
		'RIFF',
		'WEBP',
		'VP8 ',
		'<svg xmlns="http://www.w3.org/2000/svg"/>',
		'GIF89a',
		'%PDF-',
	],
	async judge(input) {
		const read = await pictureFrom(input);
		if (!read.ok) return refusal(read.words);
		const { widthPx, heightPx, bytes } = read.value;
		holds(widthPx > 0 && heightPx > 0 && bytes.length > 0, `a picture of ${widthPx} x ${heightPx}`);
		holds(!Buffer.from(bytes).includes('Exif'), 'a picture that tells where it was taken');
		return `${widthPx} x ${heightPx}`;
	},
};

export const byteParsers: readonly FuzzedParser[] = [wav, replies, photos];
