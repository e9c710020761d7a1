import { readCurve } from '#core/estimate/curve-reading.ts';
import type { Estimate } from '#core/numeric/estimate.ts';
import type { ChartPoint } from '#draw/response-chart.ts';
import { kilocycleWords } from '#record/estimate-words.ts';
import type { PrintedRow } from './printed-document.ts';
import type { ReportPaper } from './report-paper.ts';
import { reportWords } from './report-words.ts';
import { toFill } from './set-rows.ts';

/** Depth at which the middle of a curve is told: its peak may be flat, its skirts lean. */
const middleDb = 6;

/** Middle of a curve 6 dB below its peak, hertz; `null` where it does not reach down so far. */
function middleHz(points: readonly ChartPoint[], ifHz: number | null): Estimate | null {
	const spread = Math.max(...points.map(({ uncertaintyDb }) => uncertaintyDb ?? 0));
	const { bandwidths } = readCurve(
		[...points].sort((a, b) => a.frequencyHz - b.frequencyHz),
		spread,
		ifHz ?? 455e3,
	);
	return bandwidths.find(({ belowPeakDb }) => belowPeakDb === middleDb)?.centreHz ?? null;
}

/** Where the strip stood by the run's own curves, before and after. */
function ifByCurve({ curves, facts: { ifHz } }: ReportPaper): {
	readonly found: Estimate | null;
	readonly left: Estimate | null;
} {
	if (curves === null) return { found: null, left: null };
	const last = middleHz(curves.left, ifHz);
	return curves.found.length > 0 ? { found: middleHz(curves.found, ifHz), left: last } : { found: last, left: null };
}

/** Where the strip stood: what the card says, and what the run's own curves say beside it. */
export function ifRows(paper: ReportPaper): readonly PrintedRow[] {
	const { facts, language } = paper;
	const say = reportWords(language);
	const unit = language.say`kc`;
	const { found, left } = ifByCurve(paper);
	const onCard = facts.card.ifFound?.map(({ frequency }) => frequency) ?? [];
	const words = [...onCard, ...(found ? [say.byCurve(kilocycleWords(found, unit))] : [])];
	return [
		{ name: say.ifFound, words: words.join('; ') || toFill },
		...(left ? [{ name: say.ifLeft, words: say.byCurve(kilocycleWords(left, unit)) }] : []),
	];
}
