import { createHash } from 'node:crypto';
import yauzl, { type Entry, type ZipFile } from 'yauzl';
import {
	type ArchiveList,
	type ArchivePlace,
	archiveListName,
	archivePaths,
	archivePlace,
	parseArchiveList,
	parsePhotoList,
} from '#record/archive.ts';
import { parseExchange } from '#record/exchange.ts';
import type { Parsed } from '#record/parsed.ts';
import { keptPhotoBytes, type Photo, photosOfSet } from '#record/photo.ts';
import { shownWords } from '#record/shown-words.ts';
import { sqliteAlbum } from './album.ts';
import { imported } from './exchange.ts';
import { faultCode } from './fault-words.ts';
import type { Store } from './store.ts';
import { inTransaction } from './transaction.ts';

/** How much of an archive was new here. */
export interface Arrival {
	readonly sets: number;
	readonly cards: number;
	readonly entries: number;
	readonly photos: number;
}

/** Tells what is wrong with a picture that is said to be a photograph; `null`: nothing. */
export type PictureCheck = (photo: Photo, bytes: Uint8Array) => Promise<string | null>;

/** Largest file of each kind, bytes unpacked: what is larger was not written here, or would fill the memory. Chosen. */
const largestBytes: Readonly<Record<ArchivePlace['kind'], number>> = {
	list: 64_000_000,
	set: 400_000_000,
	photos: 4_000_000,
	picture: keptPhotoBytes,
	report: 40_000_000,
};
/** Most files in an archive. Chosen. */
const mostFiles = 500_000;
/** A journal is packed to about a thirtieth of its size; what was packed tighter was made to burst. Chosen. */
const tightestPacking = 150;
const alwaysFairBytes = 1_000_000;

/** An archive that cannot be taken in: why, without its stop. */
class ArchiveFault extends Error {}

const refuse = (words: string): never => {
	throw new ArchiveFault(words);
};

/** A path of the archive as it may stand in a sentence. */
const quoted = (path: string): string => `"${shownWords(path, 60)}"`;

interface Packed {
	readonly place: ArchivePlace;
	readonly entry: Entry;
}

/** Files of an archive by path; refuses what no archive holds before anything is unpacked. */
async function contents(zip: ZipFile): Promise<ReadonlyMap<string, Packed>> {
	const found = new Map<string, Packed>();
	for await (const entry of zip.eachEntry()) {
		const path = entry.fileName;
		const shown = quoted(path);
		const place =
			archivePlace(path) ?? refuse(`it holds ${shown}, which does not belong into an archive of Peakwright`);
		if (found.has(path)) refuse(`${shown} stands in it twice`);
		const tight = entry.uncompressedSize > alwaysFairBytes + tightestPacking * entry.compressedSize;
		if (entry.uncompressedSize > largestBytes[place.kind] || tight)
			refuse(`${shown} would unpack to ${(entry.uncompressedSize / 1e6).toFixed(0)} megabytes, which no such file has`);
		found.set(path, { place, entry });
		if (found.size > mostFiles) refuse(`it holds more than ${mostFiles} files`);
	}
	return found;
}

/** One file unpacked, and proved whole by its length and sum. */
async function unpacked(zip: ZipFile, { entry }: Packed, sum: ArchiveList['files'][number] | null): Promise<Buffer> {
	const pieces: Buffer[] = [];
	for await (const piece of await zip.openReadStreamPromise(entry)) pieces.push(piece as Buffer);
	const bytes = Buffer.concat(pieces);
	if (sum && (bytes.length !== sum.bytes || createHash('sha256').update(bytes).digest('hex') !== sum.sha256))
		refuse(`"${entry.fileName}" is not as it was written`);
	return bytes;
}

const orRefuse = <Value>(parsed: Parsed<Value>): Value => (parsed.ok ? parsed.value : refuse(parsed.words));

async function arrived(zip: ZipFile, store: Store, check: PictureCheck): Promise<Arrival> {
	const files = await contents(zip);
	const listFile = files.get(archiveListName) ?? refuse('its list is missing: it is of another kind or cut short');
	const list = orRefuse(parseArchiveList((await unpacked(zip, listFile, null)).toString('utf8')));
	const sums = new Map(list.files.map((file) => [file.path, file]));
	for (const path of files.keys())
		if (path !== archiveListName && !sums.has(path)) refuse(`${quoted(path)} is not on its list`);
	const whole = async (path: string): Promise<Buffer> => {
		const file = files.get(path) ?? refuse(`${quoted(path)} is missing`);
		return unpacked(zip, file, sums.get(path) ?? refuse(`${quoted(path)} is not on its list`));
	};
	for (const path of sums.keys()) if (!files.has(path)) refuse(`${quoted(path)} is missing`);
	const sets = [...files.values()].flatMap(({ place }) => (place.kind === 'set' ? [place.set] : []));
	return inTransaction(store.database, async (transaction) => {
		const inside: Store = { ...store, database: transaction };
		const album = sqliteAlbum(inside);
		const count = { sets: sets.length, cards: 0, entries: 0, photos: 0 };
		for (const set of sets) {
			const exchange = orRefuse(parseExchange((await whole(archivePaths.set(set))).toString('utf8')));
			if (exchange.sets.length !== 1 || exchange.sets[0]?.id !== set)
				refuse(`"${archivePaths.set(set)}" is of another set`);
			const { cards, entries } = await imported(inside, exchange);
			count.cards += cards;
			count.entries += entries;
			for (const photo of orRefuse(parsePhotoList((await whole(archivePaths.photos(set))).toString('utf8')))) {
				const bytes = await whole(archivePaths.picture(set, photo.id));
				const fault = await check(photo, bytes);
				if (fault !== null) refuse(`photograph ${photo.id}: ${fault}`);
				if (await album.keep(set, photo, bytes)) count.photos++;
			}
			if ((await album.photos(set)).length > photosOfSet)
				refuse(`${set} would have more than ${photosOfSet} photographs`);
		}
		for (const [path, { place }] of files) if (place.kind === 'report') await whole(path);
		return count;
	});
}

/** What the reader of zip files says, in words for the person. */
function zipWords(error: unknown): string {
	const said = error instanceof Error ? error.message : String(error);
	if (/relative path|absolute path|invalid characters/i.test(said))
		return 'it holds a path that leads out of it: it was not written by Peakwright';
	if (/too many bytes|not enough bytes|size mismatch|uncompressed/i.test(said))
		return 'a file in it is of another size than it says';
	return 'it is cut short, damaged, or no archive, which is a .zip file that Peakwright wrote; a card alone (.json) is taken in where a set is described';
}

/**
 * Takes an archive in, whole or not at all: every file is proved by its sum, and what is here already is passed over.
 * Throws only where the data cannot be written.
 */
export async function takeArchive(store: Store, path: string, check: PictureCheck): Promise<Parsed<Arrival>> {
	let zip: ZipFile | null = null;
	try {
		zip = await yauzl.openPromise(path, { strictFileNames: true, autoClose: false });
		return { ok: true, value: await arrived(zip, store, check) };
	} catch (error) {
		if (error instanceof ArchiveFault)
			return { ok: false, words: `this archive is not taken in: ${error.message}. Nothing was changed` };
		if (/^SQLITE_|^ENOSPC|^EIO/.test(faultCode(error))) throw error;
		return { ok: false, words: `this archive is not taken in: ${zipWords(error)}. Nothing was changed` };
	} finally {
		zip?.close();
	}
}
