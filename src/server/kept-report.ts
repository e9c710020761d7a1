import type { Parsed } from '#record/parsed.ts';
import type { Photo } from '#record/photo.ts';
import type { PrintedPhoto } from '#report/printed-photo.ts';
import type { ReportPaper } from '#report/report-paper.ts';
import type { Album } from '#storage/album.ts';
import type { SqliteJournal } from '#storage/sqlite-journal.ts';
import { type ReportAsked, runReport } from './run-report.ts';

interface ReportHouse {
	readonly journal: Pick<SqliteJournal, 'standing' | 'runs' | 'generatorChecks'>;
	readonly album: Pick<Album, 'photos' | 'picture'>;
}

/** Photographs with their pictures, as they go on paper. */
export async function printedPhotos(
	album: ReportHouse['album'],
	photos: readonly Photo[],
): Promise<readonly PrintedPhoto[]> {
	const printed: PrintedPhoto[] = [];
	for (const photo of photos) {
		const bytes = await album.picture(photo.id);
		if (bytes) printed.push({ photo, href: `data:image/jpeg;base64,${Buffer.from(bytes).toString('base64')}` });
	}
	return printed;
}

/**
 * Photographs that belong to a run: those of the chassis; those of before that came after the run before it had ended,
 * and those of after that came before the next one had begun.
 */
async function photosOfRun({ journal, album }: ReportHouse, set: string, run: string): Promise<readonly Photo[]> {
	const runs = [...(await journal.runs(set))].sort((one, other) => one.startedAtMs - other.startedAtMs);
	const at = runs.findIndex((one) => one.run === run);
	const [earlier, own, later] = [runs[at - 1], runs[at], runs[at + 1]];
	const endMs = later ? (own?.lastAtMs ?? Number.POSITIVE_INFINITY) : Number.POSITIVE_INFINITY;
	return (await album.photos(set)).filter(({ moment, addedAtMs }) => {
		if (moment === 'before') return addedAtMs > (earlier?.lastAtMs ?? Number.NEGATIVE_INFINITY) && addedAtMs <= endMs;
		if (moment === 'after') return addedAtMs >= (own?.startedAtMs ?? 0) && addedAtMs < (later?.startedAtMs ?? endMs);
		return true;
	});
}

/** What a kept run's report is made from, its set's photographs among it; or why there is none. */
export async function keptReport(house: ReportHouse, run: string, asked: ReportAsked): Promise<Parsed<ReportPaper>> {
	const report = runReport(run, await house.journal.standing(run), asked, await house.journal.generatorChecks());
	if (!report.ok) return report;
	const set = report.value.facts.card.id;
	if (set === undefined) return report;
	const photos = await printedPhotos(house.album, await photosOfRun(house, set, run));
	return { ok: true, value: { ...report.value, photos } };
}
