/**
 * An archive made from its description, so that a change of the description reaches what a change of bytes would only break:
 * a file more or less, a path, a text within a file whose sum is right again, a size or a place that is not true.
 * The zip is written by hand, since no writer of zip files lies: records of a file, of the directory and of its end, from memory.
 */
import { createHash } from 'node:crypto';
import { crc32, deflateRawSync } from 'node:zlib';

type Described = { readonly [key: string]: unknown };

const described = (value: unknown): Described =>
	typeof value === 'object' && value !== null ? (value as Described) : {};

/** A number of the description as the zip holds it, or the true one where none is given. */
const or = (given: unknown, bits: 16 | 32, real: number): number =>
	typeof given === 'number' && Number.isFinite(given) ? Number(BigInt.asUintN(bits, BigInt(Math.trunc(given)))) : real;

/** What a file holds: `picture` by its number, `text` as it stands, `times` over; everything else as JSON. */
function contentOf(file: Described, pictures: readonly Uint8Array[]): Buffer {
	const { picture, text, times, json } = file;
	if (typeof picture === 'number') return Buffer.from(pictures[Math.abs(Math.trunc(picture)) % pictures.length] ?? []);
	if (typeof text === 'string')
		return Buffer.from(
			text.repeat(typeof times === 'number' ? Math.max(0, Math.min(times, 1e6 / (text.length + 1))) : 1),
		);
	return Buffer.from(JSON.stringify(json) ?? '');
}

interface Written {
	readonly local: Buffer;
	readonly central: (offset: number) => Buffer;
}

function written(file: Described, path: Buffer, content: Buffer): Written {
	const lies = described(file.lies);
	const method = or(lies.method, 16, file.packed === true ? 8 : 0);
	const packed = method === 8 ? deflateRawSync(content) : content;
	const head = (signature: number, made: number[]): Buffer => {
		const buffer = Buffer.alloc(4 + 2 * made.length + 26);
		buffer.writeUInt32LE(signature, 0);
		for (const [k, value] of [...made, 20, or(lies.flags, 16, 0x0800), method, 0, 0x2821].entries())
			buffer.writeUInt16LE(value, 4 + 2 * k);
		const at = 14 + 2 * made.length;
		buffer.writeUInt32LE(or(lies.crc, 32, crc32(content)), at);
		buffer.writeUInt32LE(or(lies.packedBytes, 32, packed.length), at + 4);
		buffer.writeUInt32LE(or(lies.bytes, 32, content.length), at + 8);
		buffer.writeUInt16LE(or(lies.pathBytes, 16, path.length), at + 12);
		buffer.writeUInt16LE(0, at + 14);
		return buffer;
	};
	return {
		local: Buffer.concat([head(0x04034b50, []), path, packed]),
		central: (offset) => {
			const rest = Buffer.alloc(14);
			rest.writeUInt32LE(or(lies.attributes, 32, 0), 6);
			rest.writeUInt32LE(or(lies.offset, 32, offset), 10);
			return Buffer.concat([head(0x02014b50, [0x031e]), rest, path]);
		},
	};
}

/**
 * The zip file that a description asks for. Where the description has no list of its own, the archive's list is right for what is in it.
 * @param pictures what a file with a `picture` holds
 */
export function madeArchive(description: unknown, pictures: readonly Uint8Array[]): Buffer {
	const { files, list, end } = described(description);
	const some = (Array.isArray(files) ? files : []).map(described).map((file) => ({
		file,
		path: String(file.path).slice(0, 60_000),
		content: contentOf(file, pictures),
	}));
	const sums = some.map(({ path, content }) => ({
		path,
		bytes: content.length,
		sha256: createHash('sha256').update(content).digest('hex'),
	}));
	const own = list ?? { schema: 'peakwright/archive', version: 1, files: sums };
	const all = [...some, { file: { packed: true }, path: 'archive.json', content: Buffer.from(JSON.stringify(own)) }];
	const locals: Buffer[] = [];
	const centrals: Buffer[] = [];
	let offset = 0;
	for (const { file, path, content } of all) {
		const { local, central } = written(file, Buffer.from(path), content);
		locals.push(local);
		centrals.push(central(offset));
		offset += local.length;
	}
	const directory = Buffer.concat(centrals);
	const lies = described(end);
	const last = Buffer.alloc(22);
	last.writeUInt32LE(0x06054b50, 0);
	last.writeUInt16LE(or(lies.filesHere, 16, all.length), 8);
	last.writeUInt16LE(or(lies.files, 16, all.length), 10);
	last.writeUInt32LE(or(lies.directoryBytes, 32, directory.length), 12);
	last.writeUInt32LE(or(lies.directoryOffset, 32, offset), 16);
	last.writeUInt16LE(or(lies.commentBytes, 16, 0), 20);
	return Buffer.concat([...locals, directory, last]);
}
