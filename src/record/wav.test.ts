import fc from 'fast-check';
import { expect, test } from 'vitest';
import { parseWav } from './wav.ts';

interface Shape {
	format?: number;
	channels?: number;
	rateHz?: number;
	bits?: number;
	dataLength?: number;
}

/** A RIFF wave file written by hand from the format's published layout. */
function wav(
	data: Uint8Array,
	{ format = 1, channels = 1, rateHz = 48_000, bits = 16, dataLength = data.length }: Shape = {},
): Uint8Array {
	const bytes = new Uint8Array(44 + data.length);
	const view = new DataView(bytes.buffer);
	const name = (offset: number, text: string) => bytes.set(new TextEncoder().encode(text), offset);
	name(0, 'RIFF');
	view.setUint32(4, bytes.length - 8, true);
	name(8, 'WAVEfmt ');
	view.setUint32(16, 16, true);
	view.setUint16(20, format, true);
	view.setUint16(22, channels, true);
	view.setUint32(24, rateHz, true);
	view.setUint32(28, (rateHz * channels * bits) / 8, true);
	view.setUint16(32, (channels * bits) / 8, true);
	view.setUint16(34, bits, true);
	name(36, 'data');
	view.setUint32(40, dataLength, true);
	bytes.set(data, 44);
	return bytes;
}

const bytesOf = (array: ArrayBufferView) => new Uint8Array(array.buffer, array.byteOffset, array.byteLength);

test('half of full scale reads one half in every width', () => {
	const cases: readonly [Uint8Array, Shape][] = [
		[Uint8Array.of(192), { bits: 8 }],
		[bytesOf(Int16Array.of(16_384)), { bits: 16 }],
		[Uint8Array.of(0, 0, 0x40), { bits: 24 }],
		[bytesOf(Int32Array.of(2 ** 30)), { bits: 32 }],
		[bytesOf(Float32Array.of(0.5)), { format: 3, bits: 32 }],
		[bytesOf(Float64Array.of(0.5)), { format: 3, bits: 64 }],
	];
	for (const [data, shape] of cases) {
		const parsed = parseWav(wav(data, shape));
		expect(parsed.ok && parsed.value.channels[0]?.[0], JSON.stringify(shape)).toBe(0.5);
	}
	const negative = parseWav(wav(Uint8Array.of(0, 0, 0xc0), { bits: 24 }));
	expect(negative.ok && negative.value.channels[0]?.[0]).toBe(-0.5);
});

test('channels are told apart and all usual rates are read', () => {
	for (const rateHz of [8_000, 44_100, 48_000, 192_000]) {
		const parsed = parseWav(wav(bytesOf(Int16Array.of(16_384, -16_384)), { channels: 2, rateHz }));
		expect(parsed.ok && parsed.value.channels.map((channel) => channel[0])).toEqual([0.5, -0.5]);
		expect(parsed.ok && parsed.value.sampleRateHz).toBe(rateHz);
	}
});

test('a file that cannot be used is refused in plain words', () => {
	const sound = bytesOf(Int16Array.of(1, 2, 3, 4));
	const cases: readonly [Uint8Array, RegExp][] = [
		[new Uint8Array(0), /not a WAV file/],
		[new TextEncoder().encode('ID3 something else'), /not a WAV file/],
		[wav(sound).slice(0, 30), /cut off|no sound/],
		[wav(sound, { dataLength: 1_073_741_824 }), /cut off: it says 1073741824 bytes of sound and holds 8/],
		[wav(new Uint8Array(0)), /no sound in the file/],
		[wav(sound, { channels: 0 }), /0 channels/],
		[wav(sound, { rateHz: 4_000 }), /4000 samples a second/],
		[wav(sound, { rateHz: 4_000_000 }), /8,000 to 192,000/],
		[wav(sound, { bits: 12 }), /12-bit/],
		[wav(sound, { format: 85 }), /format 85/],
		[wav(bytesOf(Float32Array.of(0, Number.NaN)), { format: 3, bits: 32 }), /sample 2 of channel 1 is not a number/],
		[wav(bytesOf(Float32Array.of(Number.POSITIVE_INFINITY)), { format: 3, bits: 32 }), /not a number/],
	];
	for (const [bytes, words] of cases) {
		const parsed = parseWav(bytes);
		expect(parsed.ok).toBe(false);
		if (!parsed.ok) expect(parsed.words).toMatch(words);
	}
});

test('no change of a byte makes the reader throw', () => {
	const good = wav(bytesOf(Int16Array.from({ length: 64 }, (_, index) => index * 100)));
	fc.assert(
		fc.property(
			fc.array(fc.tuple(fc.nat(good.length - 1), fc.nat(255)), { maxLength: 8 }),
			fc.nat(good.length),
			(changes, length) => {
				const bytes = good.slice(0, length);
				for (const [place, value] of changes) bytes[place % Math.max(1, length)] = value;
				const parsed = parseWav(bytes);
				return parsed.ok || parsed.words.length > 0;
			},
		),
	);
});
