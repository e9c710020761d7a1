import type { FoundAnswer } from '#bench/evidence/found-answer.ts';
import { plainEvidence } from '#bench/evidence/plain-evidence.ts';
import type { Parsed } from '#record/parsed.ts';
import type { RunEntry } from '#record/run.ts';
import type { AnsweredEvidence, AskedEvidence } from './evidence-worker.ts';
import EvidenceWorker from './evidence-worker.ts?worker';

/** What the entries of a run already say to the tests of a trouble; a worker fits what needs a fit. */
export async function foundInRun(entries: readonly RunEntry[]): Promise<Parsed<readonly FoundAnswer[]>> {
	const plain = plainEvidence(entries);
	if (plain !== null) return { ok: true, value: plain };
	const worker = new EvidenceWorker();
	return new Promise<Parsed<readonly FoundAnswer[]>>((resolve) => {
		worker.addEventListener('message', ({ data }: MessageEvent<AnsweredEvidence>) =>
			resolve('found' in data ? { ok: true, value: data.found } : { ok: false, words: data.fault }),
		);
		worker.addEventListener('error', ({ message }) => resolve({ ok: false, words: message }));
		worker.postMessage({ entries, nowMs: Date.now() } satisfies AskedEvidence);
	}).finally(() => worker.terminate());
}
