import { generatorsKnown } from '#advice/generators-known.ts';
import { makeSheet } from '#advice/sheet.ts';
import { usualOptions } from '#advice/sheet-options.ts';
import type { SheetOptions } from '#advice/sheet-step.ts';
import { proofOf } from '#advice/tests/proof.ts';
import { allChecks } from '#bench/all-checks.ts';
import { type RunState, runState } from '#bench/run-state.ts';
import { wayHome } from '#bench/way-home.ts';
import { type Language, languageNamed } from '#record/language.ts';
import type { Parsed } from '#record/parsed.ts';
import type { RunEntry } from '#record/run.ts';
import { type SetFacts, setFacts } from '#record/set-facts.ts';
import { shownWords } from '#record/shown-words.ts';
import { paperNamed } from '#report/printed-document.ts';
import type { NetTurn, ReportPaper } from '#report/report-paper.ts';
import { curvesOf, dialErrorsOf } from './run-curves.ts';

/** What is chosen for a report, in words from outside. */
export interface ReportAsked {
	readonly paper?: string | undefined;
	readonly words?: string | undefined;
	readonly units?: string | undefined;
	readonly shop?: string | undefined;
}

/** The first and the last day of a run: a clock that was set back may have dated the last entry before the first. */
function days(entries: readonly RunEntry[], { day }: Language): Pick<ReportPaper, 'from' | 'to'> {
	const ends = entries.reduce(
		({ firstMs, lastMs }, { atMs }) => ({ firstMs: Math.min(firstMs, atMs), lastMs: Math.max(lastMs, atMs) }),
		{ firstMs: Number.POSITIVE_INFINITY, lastMs: Number.NEGATIVE_INFINITY },
	);
	return { from: day(ends.firstMs), to: day(ends.lastMs) };
}

/** What the sheet asked and what was answered, in the order of the sheet. */
function answersSaid(facts: SetFacts, state: RunState, language: Language): ReportPaper['answers'] {
	const sheet = makeSheet(facts, { ...usualOptions, ...(state.options as Partial<SheetOptions>) }, language);
	const questions = sheet.ok ? sheet.value.steps.flatMap((step) => step.questions) : [];
	return questions.flatMap(({ id, words, answer: kind }) => {
		const answer = state.answers[id]?.trim();
		if (!answer) return [];
		return [{ question: words, answer: kind === 'yes or no' ? language.term(answer) : answer }];
	});
}

/**
 * What a run's report is made from, as names from outside ask for it; or why there is none.
 * @param checks of generators, in all runs
 */
export function runReport(
	run: string,
	entries: readonly RunEntry[],
	asked: ReportAsked,
	checks: readonly RunEntry[] = [],
): Parsed<ReportPaper> {
	const paper = paperNamed(asked.paper ?? 'A4');
	if (paper === null) return { ok: false, words: `paper: cannot use "${asked.paper}": give A4 or Letter` };
	const language = languageNamed(asked.words, asked.units);
	if (!language.ok) return language;
	const shop = asked.shop?.trim().slice(0, 300) || null;
	return reportPaper(run, entries, { paper, language: language.value, shop }, checks);
}

/** What a run's report is made from; or why there is none. */
export function reportPaper(
	run: string,
	entries: readonly RunEntry[],
	chosen: Pick<ReportPaper, 'paper' | 'language' | 'shop'>,
	checks: readonly RunEntry[] = [],
): Parsed<ReportPaper> {
	const { language } = chosen;
	const state = runState(run, entries);
	if (state.card === null)
		return { ok: false, words: `there is no run "${shownWords(run, 64)}": npx peakwright runs lists them` };
	const facts = setFacts(state.card);
	if (!facts.ok) return facts;
	const known = generatorsKnown(allChecks(checks, state), entries.at(-1)?.atMs ?? 0);
	const turns = wayHome(state).map(({ adjuster, eighths }): NetTurn => {
		const gains = state.turns.flatMap((turn) => (turn.adjuster === adjuster && turn.gainDb ? [turn.gainDb.value] : []));
		return { adjuster, eighths, gainDb: gains.length === 0 ? null : gains.reduce((sum, gain) => sum + gain, 0) };
	});
	return {
		ok: true,
		value: {
			facts: facts.value,
			proof: proofOf(facts.value, state.testGear, state.testReadings, known, language),
			readings: state.testReadings,
			turns,
			curves: curvesOf(state.sweeps, known.levels),
			dials: dialErrorsOf(state.dial, known.dials),
			log: state.turns.map(({ adjuster, eighths, gainDb }) => ({ adjuster, eighths, gainDb: gainDb?.value ?? null })),
			notes: state.notes,
			answers: answersSaid(facts.value, state, language),
			photos: [],
			...days(entries, language),
			...chosen,
		},
	};
}
