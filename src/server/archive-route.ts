import { createWriteStream } from 'node:fs';
import { mkdtemp, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { Readable, Transform } from 'node:stream';
import { pipeline } from 'node:stream/promises';
import type { ReadableStream as WebStream } from 'node:stream/web';
import { Hono } from 'hono';
import type { Parsed } from '#record/parsed.ts';
import { reportDocument } from '#report/report-document.ts';
import { takeArchive } from '#storage/archive-reader.ts';
import { type ArchivedReport, type ArchiveHouse, archiveStream } from '#storage/archive-writer.ts';
import type { Store } from '#storage/store.ts';
import { arrivalAnswer } from '#wire/messages.ts';
import { keptReport } from './kept-report.ts';
import { pdfOf } from './pdf.ts';
import { pictureFault } from './photo-intake.ts';
import { checked } from './question.ts';
import { type ReportAsked, runReport } from './run-report.ts';

/** Largest archive that the page takes; the terminal takes any. Chosen. */
const largestArchiveBytes = 1_000_000_000;

/** Where an archive is sent to be taken in. */
export const archivePath = '/api/archive';

/** The reports of a set's runs for an archive; a run of which none can be made has none in it. */
export const archivedReports =
	(house: ArchiveHouse, asked: ReportAsked) =>
	async (set: string): Promise<readonly ArchivedReport[]> => {
		const reports: ArchivedReport[] = [];
		for (const { run } of await house.journal.runs(set)) {
			if (!runReport(run, await house.journal.standing(run), asked).ok) continue;
			reports.push({
				run,
				pdf: async () => wanted(await pdfOf(reportDocument(wanted(await keptReport(house, run, asked))))),
			});
		}
		return reports;
	};

function wanted<Value>(parsed: Parsed<Value>): Value {
	if (!parsed.ok) throw new Error(parsed.words);
	return parsed.value;
}

class TooLarge extends Error {}

/** Writes what comes to a file, no more than is taken. */
async function received(body: WebStream, path: string): Promise<void> {
	let bytes = 0;
	const measured = new Transform({
		transform(piece: Buffer, _, done) {
			bytes += piece.length;
			done(bytes > largestArchiveBytes ? new TooLarge() : null, piece);
		},
	});
	await pipeline(Readable.fromWeb(body), measured, createWriteStream(path, { flags: 'wx', mode: 0o600 }));
}

/** A set with all that belongs to it as one file, `/sets/:id/archive.zip`; and such a file taken in, `/archive`. */
export function archiveRoute(house: ArchiveHouse & { readonly store: Store }): Hono {
	const route = new Hono();
	route.get('/sets/:id/archive.zip', async (context) => {
		const id = context.req.param('id');
		if (!(await house.shelf.set(id)))
			return context.json({ fault: 'there is no such set on the shelf: go back to the shelf' }, 404);
		const stream = archiveStream(house, [id], archivedReports(house, context.req.query()));
		return context.body(Readable.toWeb(stream) as ReadableStream, 200, {
			'Content-Type': 'application/zip',
			'Content-Disposition': `attachment; filename="${id}.zip"`,
		});
	});
	route.post('/archive', async (context) => {
		const { body } = context.req.raw;
		if (!body) return context.json({ fault: 'this file is empty: give an archive that Peakwright wrote' }, 422);
		const folder = await mkdtemp(join(tmpdir(), 'peakwright-archive-'));
		try {
			const path = join(folder, 'archive.zip');
			await received(body as WebStream, path);
			const taken = await takeArchive(house.store, path, (photo, bytes) => pictureFault({ ...photo, bytes }));
			if (!taken.ok) return context.json({ fault: taken.words }, 422);
			return context.json(checked(arrivalAnswer, taken.value));
		} catch (error) {
			if (!(error instanceof TooLarge)) throw error;
			return context.json({ fault: 'this is more than a gigabyte: take it in by npx peakwright import FILE.zip' }, 413);
		} finally {
			await rm(folder, { recursive: true, force: true });
		}
	});
	return route;
}
