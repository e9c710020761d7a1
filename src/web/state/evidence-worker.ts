/** Reads what a run says to the tests of a trouble off the page's own thread: fits of curves and dials take their time. */
import type { FoundAnswer } from '#bench/evidence/found-answer.ts';
import { runEvidence } from '#bench/evidence/run-evidence.ts';
import type { RunEntry } from '#record/run.ts';

/** What is asked of a run. */
export interface AskedEvidence {
	readonly entries: readonly RunEntry[];
	readonly nowMs: number;
}
/** What it says, or why that could not be read. */
export type AnsweredEvidence = { readonly found: readonly FoundAnswer[] } | { readonly fault: string };

addEventListener('message', ({ data }: MessageEvent<AskedEvidence>) => {
	let answered: AnsweredEvidence;
	try {
		answered = { found: runEvidence(data.entries, data.nowMs) };
	} catch (error) {
		answered = { fault: (error as Error).message };
	}
	postMessage(answered);
});
