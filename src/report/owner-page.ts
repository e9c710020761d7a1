import { coverage } from '#advice/tests/figure-words.ts';
import type { Finding } from '#advice/tests/standard-test.ts';
import type { Estimate } from '#core/numeric/estimate.ts';
import { printed } from '#draw/printed.ts';
import { type LevelPair, sensitivityChart } from '#draw/test-charts.ts';
import type { Language } from '#record/language.ts';
import { ownerPhotoBlocks } from './photo-blocks.ts';
import { foremostCautions } from './printed-cautions.ts';
import type { PrintedBlock } from './printed-document.ts';
import type { ReportPaper } from './report-paper.ts';
import { reportWords } from './report-words.ts';

const chartMm = 140;
const paragraph = (words: string): PrintedBlock => ({ kind: 'paragraph', words });

function bounds({ value }: Finding): LevelPair['before'] {
	if (value === null) return null;
	const spread = coverage * (value.uncertainty ?? 0);
	return { lowV: Math.max(value.value - spread, value.value / 3), atV: value.value, highV: value.value + spread };
}

/** Input for the standard output at each mark, before and after. */
function sensitivityPairs({ proof, language }: ReportPaper): readonly LevelPair[] {
	const of = (list: readonly Finding[] | undefined) => (list ?? []).filter(({ test }) => test === 'sensitivity');
	const before = of(proof.before?.findings);
	const after = of(proof.after?.findings);
	const ids = [...new Set([...before, ...after].map(({ id }) => id))];
	return ids.map((id) => {
		const early = before.find((one) => one.id === id);
		const late = after.find((one) => one.id === id);
		return {
			label: language.dial(late?.dialHz ?? early?.dialHz ?? Number.NaN),
			before: early ? bounds(early) : null,
			after: late ? bounds(late) : null,
		};
	});
}

/** Mean change of the input over the dial, decibels; less is better. The gear's share is common to all: uncertainties are not averaged down. */
function meanChange({ proof }: ReportPaper): Estimate | null {
	const changes = proof.differences.flatMap(({ after, change }) =>
		after.test === 'sensitivity' && change !== null ? [change] : [],
	);
	if (changes.length === 0) return null;
	const mean = (of: (change: Estimate) => number): number =>
		changes.reduce((sum, change) => sum + of(change), 0) / changes.length;
	return { value: mean(({ value }) => value), uncertainty: mean(({ uncertainty }) => uncertainty ?? 0) };
}

function loudnessWords(change: Estimate, language: Language): readonly string[] {
	const say = reportWords(language);
	if (Math.abs(change.value) <= coverage * (change.uncertainty ?? 0)) return [say.sameLoud];
	const times = 10 ** (Math.abs(change.value) / 20);
	const shown = times < 10 ? times.toFixed(1) : Number(times.toPrecision(2)).toLocaleString(language.tag);
	return [change.value < 0 ? say.louder(shown) : say.deafer(shown), say.gained(change)];
}

/** How far the pointer is from the truth at worst, with what the readings are uncertain by. */
function dialBlocks(findings: readonly Finding[], language: Language): readonly PrintedBlock[] {
	const offHz = findings.flatMap(({ test, value }) =>
		test === 'dial' && value ? [Math.abs(value.value) + coverage * (value.uncertainty ?? 0)] : [],
	);
	if (offHz.length === 0) return [];
	return [paragraph(reportWords(language).dial(language.frequency(1e3 * Math.ceil(Math.max(...offHz) / 1e3))))];
}

function proofBlocks(paper: ReportPaper): readonly PrintedBlock[] {
	const { before, after, differences } = paper.proof;
	const latest = after ?? before;
	const say = reportWords(paper.language);
	if (latest === null) return [paragraph(say.untested)];
	const change = meanChange(paper);
	/** What the tests are about, each once; of a test that went both ways nothing is said here. */
	const plainly = (tests: readonly string[]): readonly string[] =>
		[...new Set(tests)].flatMap((test) => say.plainly[test] ?? []);
	const moved = (standing: string) =>
		plainly(
			differences
				.filter((one) => one.standing === standing && one.after.test !== 'sensitivity')
				.map(({ after: late }) => late.test),
		);
	const [gained, lost] = [moved('better'), moved('worse')];
	const better = gained.filter((words) => !lost.includes(words)).join('; ');
	const worse = lost.join('; ');
	const judged = (isGood: boolean) =>
		plainly(
			latest.verdicts
				.filter(({ standing }) => (standing === 'as good as can be expected') === isGood)
				.map(({ finding }) => finding.test),
		);
	const wanting = judged(false);
	const short = wanting.join('; ');
	const good = judged(true)
		.filter((words) => !wanting.includes(words))
		.join('; ');
	const basis = latest.verdicts[0]?.expected.basis;
	const pairs = sensitivityPairs(paper);
	return [
		...(before && after ? [] : [paragraph(say.testedOnce(after ? 'after' : 'before'))]),
		...(change ? loudnessWords(change, paper.language).map(paragraph) : []),
		...dialBlocks(latest.findings, paper.language),
		...(better ? [paragraph(say.better(better))] : []),
		...(worse ? [paragraph(say.worse(worse))] : []),
		...(pairs.some(({ before: early, after: late }) => early !== null || late !== null)
			? [
					{
						kind: 'drawing',
						drawing: { svg: printed(sensitivityChart(pairs, paper.language)), words: say.chartWords, widthMm: chartMm },
					} as const,
				]
			: []),
		...(good ? [paragraph(`${say.good} ${good}.`)] : []),
		...(short ? [paragraph(`${say.short} ${short}.`)] : []),
		...(basis === undefined ? [] : [paragraph(basis === 'its own circuits' ? say.fromCircuits : say.fromCustom)]),
	];
}

/** Page one: what was done and what the radio does now, in plain words. */
export function ownerPage(paper: ReportPaper): readonly PrintedBlock[] {
	const { language } = paper;
	const say = reportWords(language);
	const turned = paper.turns.filter(({ eighths }) => eighths !== 0).length;
	const left = paper.facts.adjusters.filter(
		({ condition }) => condition !== undefined && condition !== 'free' && condition !== 'unknown',
	);
	return [
		{ kind: 'heading', words: say.forTheOwner },
		paragraph(`${say.worked(paper.from, paper.to)} ${say.aligned(turned)}`),
		...(paper.facts.card.virtualSet === undefined ? [] : [paragraph(say.virtual)]),
		{ kind: 'heading', words: say.whatItDoes },
		...proofBlocks(paper),
		...ownerPhotoBlocks(paper.photos, paper.facts.card, language),
		...(left.length > 0
			? ([
					{ kind: 'heading', words: say.leftAlone },
					...left.map(({ name, condition }) => paragraph(say.leftAloneWhy(name, language.term(condition ?? '')))),
				] as const)
			: []),
		{ kind: 'heading', words: say.toMind },
		{ kind: 'cautions', cautions: foremostCautions(paper.facts, 3, language) },
		...(paper.shop === null ? [] : [{ kind: 'rows', rows: [{ name: say.doneBy, words: paper.shop }] } as const]),
	];
}
