import { createHash } from 'node:crypto';
import { PassThrough, Readable } from 'node:stream';
import { ZipFile } from 'yazl';
import { type ArchiveList, archiveListName, archivePaths } from '#record/archive.ts';
import type { Album } from './album.ts';
import { exportText, type House } from './exchange.ts';

/** Shelf, journal and album of one place. */
export interface ArchiveHouse extends House {
	readonly album: Album;
}

/** A set's report of one run, as it is put into an archive. */
export interface ArchivedReport {
	readonly run: string;
	readonly pdf: () => Promise<Uint8Array>;
}

/** Every file carries the same time, so that the same sets make the same archive. */
const mtime = new Date(Date.UTC(2000, 0, 1));

/** One file of an archive: its content is made when its turn has come. */
interface ArchiveFile {
	readonly path: string;
	readonly content: () => AsyncIterable<string | Uint8Array>;
	/** Pictures and printed pages do not get smaller by packing. */
	readonly packed: boolean;
}

const once = (make: () => Promise<string | Uint8Array>) =>
	async function* (): AsyncGenerator<string | Uint8Array> {
		yield await make();
	};

async function filesOf(
	house: ArchiveHouse,
	id: string,
	reports: readonly ArchivedReport[],
): Promise<readonly ArchiveFile[]> {
	const photos = await house.album.photos(id);
	const picture = async (photo: string): Promise<Uint8Array> => {
		const bytes = await house.album.picture(photo);
		if (bytes === null)
			throw new Error(`the photograph ${photo} was taken away meanwhile: write the archive once more`);
		return bytes;
	};
	return [
		{ path: archivePaths.set(id), content: () => exportText(house, [id]), packed: true },
		{
			path: archivePaths.photos(id),
			content: once(async () => `${JSON.stringify(photos, null, '\t')}\n`),
			packed: true,
		},
		...photos.map((photo) => ({
			path: archivePaths.picture(id, photo.id),
			content: once(() => picture(photo.id)),
			packed: false,
		})),
		...reports.map(({ run, pdf }) => ({ path: archivePaths.report(id, run), content: once(pdf), packed: false })),
	];
}

/**
 * Sets with their runs, photographs and reports as one zip file, piece by piece: no more than one picture, or one page of a journal, is held at a time.
 * The last file in it lists all others with their sums.
 * @param reports what is printed of a set's runs, to be read where the program is not; it is not taken in again
 */
export function archiveStream(
	house: ArchiveHouse,
	ids: readonly string[],
	reports: (set: string) => Promise<readonly ArchivedReport[]>,
): Readable {
	const zip = new ZipFile();
	const stream = new PassThrough();
	zip.on('error', (error) => stream.destroy(error));
	zip.outputStream.pipe(stream);
	const listed: ArchiveList['files'] = [];
	async function* summed({ path, content }: ArchiveFile): AsyncGenerator<Uint8Array> {
		const sum = createHash('sha256');
		let bytes = 0;
		for await (const piece of content()) {
			const buffer = typeof piece === 'string' ? Buffer.from(piece, 'utf8') : piece;
			sum.update(buffer);
			bytes += buffer.length;
			yield buffer;
		}
		listed.push({ path, bytes, sha256: sum.digest('hex') });
	}
	async function* list(): AsyncGenerator<string> {
		yield `${JSON.stringify({ schema: 'peakwright/archive', version: 1, files: listed } satisfies ArchiveList, null, '\t')}\n`;
	}
	const add = (path: string, packed: boolean, content: () => AsyncIterable<string | Uint8Array>): void =>
		zip.addReadStreamLazy(path, { mtime, compress: packed }, (give) => {
			const source = Readable.from(content(), { objectMode: false });
			source.on('error', (error) => stream.destroy(error));
			give(null, source);
		});
	const fill = async (): Promise<void> => {
		for (const id of ids)
			for (const file of await filesOf(house, id, await reports(id))) add(file.path, file.packed, () => summed(file));
		add(archiveListName, true, list);
		zip.end();
	};
	fill().catch((error: unknown) => stream.destroy(error as Error));
	return stream;
}
