import type * as z from 'zod/mini';
import type { Parsed } from '#record/parsed.ts';
import type { RunEntry } from '#record/run.ts';
import type { SetCard } from '#record/set-card.ts';
import {
	arrivalAnswer,
	entriesAnswer,
	faultAnswer,
	keptAnswer,
	runsAnswer,
	setAnswer,
	shelfAnswer,
	standingAnswer,
} from '#wire/messages.ts';

function jsonOf(text: string): unknown {
	try {
		return JSON.parse(text);
	} catch {
		return null;
	}
}

/** Asks the program; what it answers is checked. */
export async function ask<Answer>(
	path: string,
	schema: z.ZodMiniType<Answer>,
	request: RequestInit = {},
): Promise<Parsed<Answer>> {
	let answer: Response;
	let text: string;
	try {
		answer = await fetch(`/api${path}`, { ...request, headers: { 'Content-Type': 'application/json' } });
		text = await answer.text();
	} catch {
		return { ok: false, words: 'Peakwright does not answer: start it again; what you typed stays here' };
	}
	const body = jsonOf(text);
	if (answer.ok) {
		const read = schema.safeParse(body);
		if (read.success) return { ok: true, value: read.data };
		return { ok: false, words: 'the program answered what this page does not know: load the page anew' };
	}
	const fault = faultAnswer.safeParse(body);
	return { ok: false, words: fault.success ? fault.data.fault : `the program answered ${answer.status}` };
}

/** Where the printed sheet of a set is, made with these options. */
export const sheetPdfAddress = (set: string, options: Readonly<Record<string, string>>): string =>
	`/api/sets/${encodeURIComponent(set)}/sheet.pdf?${new URLSearchParams(options)}`;
/** Where a run's report, or its bench card, is had: for paper, or as one file for the browser. */
export const reportAddress = (
	run: string,
	which: 'report.pdf' | 'card.pdf' | 'report.html',
	options: Readonly<Record<string, string>>,
): string => `/api/runs/${encodeURIComponent(run)}/${which}?${new URLSearchParams(options)}`;
/** One page of the sets that all words of a question are found on. */
export const fetchShelf = (find: string, from: number) =>
	ask(`/sets?${new URLSearchParams({ find, from: String(from) })}`, shelfAnswer);
/** Where a set is had as one file, with its runs, photographs and reports. */
export const archiveAddress = (set: string, options: Readonly<Record<string, string>>): string =>
	`/api/sets/${encodeURIComponent(set)}/archive.zip?${new URLSearchParams(options)}`;
/** Sends such a file to be taken in. */
export const sendArchive = (file: File) => ask('/archive', arrivalAnswer, { method: 'POST', body: file });
export const fetchSet = (id: string) => ask(`/sets/${encodeURIComponent(id)}`, setAnswer);
export const keepNewSet = (card: SetCard) => ask('/sets', setAnswer, { method: 'POST', body: JSON.stringify(card) });
export const keepSet = (id: string, card: SetCard) =>
	ask(`/sets/${encodeURIComponent(id)}`, setAnswer, { method: 'PUT', body: JSON.stringify(card) });
export const fetchRuns = (set: string) => ask(`/runs?set=${encodeURIComponent(set)}`, runsAnswer);
/** One page of a run's entries, from a place on. */
export const fetchEntries = (run: string, from: number) =>
	ask(`/runs/${encodeURIComponent(run)}/entries?from=${from}`, entriesAnswer);
/** The entries that tell where a run stands. */
export const fetchStanding = (run: string) => ask(`/runs/${encodeURIComponent(run)}/standing`, standingAnswer);

/** Checks of generators in all runs. */
export const fetchGeneratorChecks = () => ask('/generator-checks', entriesAnswer);
/** Steps of a set's AVC laws in all runs. */
export const fetchAvcLaws = (set: string) => ask(`/sets/${encodeURIComponent(set)}/avc-laws`, entriesAnswer);

/** How long the program may take to keep entries before they are sent again; sending again is harmless. */
const longestKeepingMs = 10_000;

/** Sends entries of one run to be kept. */
export const sendEntries = (run: string, entries: readonly RunEntry[]) =>
	ask(`/runs/${encodeURIComponent(run)}/entries`, keptAnswer, {
		method: 'POST',
		body: JSON.stringify({ entries }),
		signal: AbortSignal.timeout(longestKeepingMs),
	});
