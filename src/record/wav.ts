import type { Parsed } from './parsed.ts';

/** Sound from a file; each channel's samples with full scale 1. */
export interface Recording {
	readonly sampleRateHz: number;
	readonly channels: readonly Float32Array[];
}

/** Rates that are read, in hertz. */
const wavRateRange = { lowestHz: 8_000, highestHz: 192_000 } as const;
const extensibleFormat = 0xfffe;

type Sample = (view: DataView, atByte: number) => number;

/** Readers by format and bits: 8-bit is unsigned about 128, the others are signed, least byte first (RIFF wave format). */
const readers: Readonly<Record<string, Sample>> = {
	'1/8': (view, atByte) => (view.getUint8(atByte) - 128) / 128,
	'1/16': (view, atByte) => view.getInt16(atByte, true) / 32_768,
	'1/24': (view, atByte) => ((view.getInt8(atByte + 2) << 16) | view.getUint16(atByte, true)) / 8_388_608,
	'1/32': (view, atByte) => view.getInt32(atByte, true) / 2_147_483_648,
	'3/32': (view, atByte) => view.getFloat32(atByte, true),
	'3/64': (view, atByte) => view.getFloat64(atByte, true),
};

const wrong = (words: string): Parsed<Recording> => ({ ok: false, words });

function chunkName(view: DataView, atByte: number): string {
	return String.fromCharCode(...[0, 1, 2, 3].map((index) => view.getUint8(atByte + index)));
}

interface Layout {
	readonly format: number;
	readonly channelCount: number;
	readonly rateHz: number;
	readonly bits: number;
}

function layoutAt(view: DataView, atByte: number, length: number): Layout {
	const format = view.getUint16(atByte, true);
	return {
		// The extensible form carries the true format in the first bytes of its sub-format.
		format: format === extensibleFormat && length >= 26 ? view.getUint16(atByte + 24, true) : format,
		channelCount: view.getUint16(atByte + 2, true),
		rateHz: view.getUint32(atByte + 4, true),
		bits: view.getUint16(atByte + 14, true),
	};
}

function samplesOf(view: DataView, start: number, length: number, layout: Layout): Parsed<Recording> {
	const read = readers[`${layout.format}/${layout.bits}`];
	if (!read) {
		return wrong(
			`cannot read ${layout.bits}-bit sound of format ${layout.format}: save it as 16-, 24- or 32-bit PCM or as float`,
		);
	}
	if (layout.channelCount < 1 || layout.channelCount > 32)
		return wrong(`the file says it has ${layout.channelCount} channels: give one with 1 to 32`);
	if (layout.rateHz < wavRateRange.lowestHz || layout.rateHz > wavRateRange.highestHz) {
		return wrong(`the file says ${layout.rateHz} samples a second: give one with 8,000 to 192,000`);
	}
	const bytes = layout.bits / 8;
	const count = Math.floor(length / (bytes * layout.channelCount));
	if (count === 0) return wrong('there is no sound in the file: record again');
	const channels = Array.from({ length: layout.channelCount }, () => new Float32Array(count));
	for (let index = 0; index < count; index++) {
		for (const [place, channel] of channels.entries()) {
			const value = read(view, start + (index * layout.channelCount + place) * bytes);
			if (!Number.isFinite(value))
				return wrong(`sample ${index + 1} of channel ${place + 1} is not a number: record again`);
			channel[index] = value;
		}
	}
	return { ok: true, value: { sampleRateHz: layout.rateHz, channels } };
}

/**
 * The recording in the bytes of a RIFF wave file: 8-, 16-, 24-, 32-bit integers or 32-, 64-bit floats, 8 to 192 kHz.
 * A file whose sound is cut off is refused: a length that was never written (0 or all ones, as recorders leave it when they are stopped) is taken as up to the end.
 */
export function parseWav(bytes: Uint8Array): Parsed<Recording> {
	const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
	if (bytes.length < 12 || chunkName(view, 0) !== 'RIFF' || chunkName(view, 8) !== 'WAVE') {
		return wrong('this is not a WAV file: give one that begins with RIFF and WAVE');
	}
	let layout: Layout | null = null;
	for (let offset = 12; offset + 8 <= bytes.length; ) {
		const name = chunkName(view, offset);
		const length = view.getUint32(offset + 4, true);
		const start = offset + 8;
		const here = bytes.length - start;
		if (name === 'fmt ') {
			if (length < 16 || here < length)
				return wrong('the file is cut off in its description of the sound: record or copy it again');
			layout = layoutAt(view, start, length);
		} else if (name === 'data') {
			if (!layout) return wrong('the file does not say how its sound is written: record again');
			const unwritten = length === 0xffff_ffff || (length === 0 && here > 0);
			if (!unwritten && length > here) {
				return wrong(
					`the file is cut off: it says ${length} bytes of sound and holds ${here}; record or copy it again`,
				);
			}
			return samplesOf(view, start, unwritten ? here : length, layout);
		}
		offset = start + length + (length % 2);
	}
	return wrong('there is no sound in the file: record again');
}
