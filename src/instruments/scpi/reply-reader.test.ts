import fc from 'fast-check';
import { expect, test } from 'vitest';
import { type Reply, ReplyReader } from './reply-reader.ts';

const bytes = (text: string): Buffer => Buffer.from(text, 'latin1');

/** Cuts bytes at given places and lets a reader have the pieces. */
function inPieces(whole: Buffer, cuts: readonly number[]): Reply[] {
	const reader = new ReplyReader('LF');
	const places = [
		0,
		...[...cuts].sort((one, other) => one - other).map((cut) => cut % (whole.length + 1)),
		whole.length,
	];
	const ordered = places.sort((one, other) => one - other);
	return ordered.slice(1).flatMap((end, index) => [...reader.take(whole.subarray(ordered[index], end))]);
}

// Form of a block of definite length, [ieee-488-2] 8.7.9: #, a digit, so many digits of length, the bytes.
test('a block of definite length is read whole, whatever bytes are in it', () => {
	const reader = new ReplyReader('LF');
	const [block] = reader.take(bytes('#15a\nb\r\n\n'));
	expect(block).toEqual({ kind: 'block', bytes: new Uint8Array(bytes('a\nb\r\n')) });
	expect(reader.take(bytes('+0,"No error"\r\n'))).toEqual([{ kind: 'line', text: '+0,"No error"' }]);
});

test('lines and blocks come out the same however the bytes are cut', () => {
	const line = fc
		.string({
			unit: fc.integer({ min: 0x21, max: 0x7e }).map((code) => String.fromCharCode(code)),
			minLength: 1,
			maxLength: 30,
		})
		.filter((text) => !text.startsWith('#'))
		.map((text): { wire: Buffer; reply: Reply } => ({ wire: bytes(`${text}\n`), reply: { kind: 'line', text } }));
	const block = fc.uint8Array({ maxLength: 40 }).map((held): { wire: Buffer; reply: Reply } => ({
		wire: Buffer.concat([bytes(`#${String(held.length).length}${held.length}`), held, bytes('\n')]),
		reply: { kind: 'block', bytes: held },
	}));
	fc.assert(
		fc.property(fc.array(fc.oneof(line, block), { maxLength: 6 }), fc.array(fc.nat(500)), (parts, cuts) => {
			const replies = inPieces(Buffer.concat(parts.map(({ wire }) => wire)), cuts);
			expect(replies.map((reply) => (reply.kind === 'block' ? [...reply.bytes] : reply))).toEqual(
				parts.map(({ reply }) => (reply.kind === 'block' ? [...reply.bytes] : reply)),
			);
		}),
		{ numRuns: 200 },
	);
});

test('whatever comes, the reader neither fails nor holds more than its bound', () => {
	fc.assert(
		fc.property(fc.array(fc.uint8Array({ maxLength: 60 }), { maxLength: 10 }), (pieces) => {
			const reader = new ReplyReader('LF');
			for (const piece of pieces)
				for (const reply of reader.take(piece)) expect(reply.kind).toMatch(/line|block|garbled/);
		}),
		{ numRuns: 300 },
	);
});

test('a line without end and a block too long are given up', () => {
	const endless = new ReplyReader('LF');
	const piece = Buffer.alloc(1 << 16, 0x31);
	const replies: Reply[] = [];
	for (let count = 0; count < 20 && replies.length === 0; count++) replies.push(...endless.take(piece));
	expect(replies).toMatchObject([{ kind: 'garbled' }]);
	expect(new ReplyReader('LF').take(bytes('#9999999999'))).toMatchObject([{ kind: 'garbled' }]);
	expect(new ReplyReader('LF').take(bytes('#0abc\n'))).toMatchObject([{ kind: 'garbled' }]);
});

test('a number that begins with # is a line', () => {
	expect(new ReplyReader('LF').take(bytes('#HFF\n'))).toEqual([{ kind: 'line', text: '#HFF' }]);
});
