import { knownGenerators } from '#advice/generator-place.ts';
import { proofOf } from '#advice/tests/proof.ts';
import { runState } from '#bench/run-state.ts';
import { turnLog, wayHome } from '#bench/way-home.ts';
import type { Parsed } from '#record/parsed.ts';
import type { RunEntry } from '#record/run.ts';
import { setFacts } from '#record/set-facts.ts';
import { shownWords } from '#record/shown-words.ts';
import { dayWords, paperNamed } from '#report/printed-document.ts';
import type { NetTurn, ReportPaper } from '#report/report-paper.ts';
import { unitsNamed } from '#report/report-units.ts';
import { curvesOf, dialErrorsOf } from './run-curves.ts';

/** What is chosen for a report, in words from outside. */
export interface ReportAsked {
	readonly paper?: string | undefined;
	readonly words?: string | undefined;
	readonly units?: string | undefined;
	readonly shop?: string | undefined;
}

/** The first and the last day of a run: a clock that was set back may have dated the last entry before the first. */
function days(entries: readonly RunEntry[]): Pick<ReportPaper, 'from' | 'to'> {
	const ends = entries.reduce(
		({ firstMs, lastMs }, { atMs }) => ({ firstMs: Math.min(firstMs, atMs), lastMs: Math.max(lastMs, atMs) }),
		{ firstMs: Number.POSITIVE_INFINITY, lastMs: Number.NEGATIVE_INFINITY },
	);
	return { from: dayWords(ends.firstMs), to: dayWords(ends.lastMs) };
}

/** What a run's report is made from; or why there is none. */
export function runReport(run: string, entries: readonly RunEntry[], asked: ReportAsked): Parsed<ReportPaper> {
	const paper = paperNamed(asked.paper ?? 'A4');
	if (paper === null) return { ok: false, words: `paper: cannot use "${asked.paper}": give A4 or Letter` };
	const words = asked.words ?? 'US';
	if (words !== 'US' && words !== 'UK')
		return { ok: false, words: `words: cannot use "${asked.words}": give US or UK` };
	const units = unitsNamed(asked.units ?? 'kc');
	if (units === null) return { ok: false, words: `units: cannot use "${asked.units}": give kc, kHz or m` };
	const state = runState(run, entries);
	if (state.card === null)
		return { ok: false, words: `there is no run "${shownWords(run, 64)}": npx peakwright runs lists them` };
	const facts = setFacts(state.card);
	if (!facts.ok) return facts;
	const turns = wayHome(state).map(({ adjuster, eighths }): NetTurn => {
		const gains = state.turns.flatMap((turn) => (turn.adjuster === adjuster && turn.gainDb ? [turn.gainDb.value] : []));
		return { adjuster, eighths, gainDb: gains.length === 0 ? null : gains.reduce((sum, gain) => sum + gain, 0) };
	});
	const shop = asked.shop?.trim().slice(0, 300);
	return {
		ok: true,
		value: {
			facts: facts.value,
			proof: proofOf(
				facts.value,
				state.testGear,
				state.testReadings,
				knownGenerators(state.dial.checks, entries.at(-1)?.atMs ?? 0),
			),
			readings: state.testReadings,
			turns,
			curves: curvesOf(state.sweeps),
			dials: dialErrorsOf(state.dial, entries.at(-1)?.atMs ?? 0),
			log: turnLog(state).toReversed(),
			notes: state.notes,
			answers: state.answers,
			photos: [],
			...days(entries),
			shop: shop ? shop : null,
			paper,
			words,
			units,
		},
	};
}
