import { setCautions } from '#advice/cautions.ts';
import { testAsks } from '#advice/tests/asks.ts';
import { avcCurve } from '#advice/tests/avc.ts';
import { differenceWords, findingWords, testValueWords } from '#advice/tests/figure-words.ts';
import { ReadingBook } from '#advice/tests/finding.ts';
import { followed, sourceWords } from '#advice/tests/procedures.ts';
import type { MomentFindings } from '#advice/tests/proof.ts';
import { bandChart } from '#draw/band-chart.ts';
import { printed } from '#draw/printed.ts';
import { responseChart } from '#draw/response-chart.ts';
import { adjusterNumbers } from '#draw/tags.ts';
import { avcChart } from '#draw/test-charts.ts';
import type { Language } from '#record/language.ts';
import { resistanceWords, signedWords } from '#record/quantity-words.ts';
import type { Adjuster } from '#record/set-card.ts';
import { briefFacts, manyAdjusters, titleOf } from './brief-facts.ts';
import { ifRows } from './if-by-curve.ts';
import { ownerPage } from './owner-page.ts';
import { photoBlocks, planPhotoBlocks } from './photo-blocks.ts';
import { printedCautions } from './printed-cautions.ts';
import {
	acrossMm,
	type PrintedBlock,
	type PrintedDocument,
	type PrintedDrawing,
	type PrintedRow,
	printedFrame,
} from './printed-document.ts';
import type { LoggedTurn, ReportPaper } from './report-paper.ts';
import { reportWords, signedTurn } from './report-words.ts';
import { setRows } from './set-rows.ts';

/** Three charts beside each other fill the page; so narrow that their letters stand at eight points. */
const chartMm = acrossMm[3];
const curvePx = { wide: 280, high: 240 } as const;
/** Longest name in a table of the report, characters. */
const nameLetters = 32;
const heading = (words: string): PrintedBlock => ({ kind: 'heading', words });
const paragraph = (words: string): PrintedBlock => ({ kind: 'paragraph', words });

/** A turn as it stands in the table: its eighths with their sign, and what it gained. */
function turnWords({ eighths, gainDb }: LoggedTurn, language: Language): string {
	const say = reportWords(language);
	const turned = signedTurn(eighths, language);
	return gainDb === null ? turned : say.turnGained(turned, signedWords(gainDb, 1));
}

function adjusterBlocks({ facts, turns, log, photos, language }: ReportPaper): readonly PrintedBlock[] {
	const say = reportWords(language);
	const { term } = language;
	const numbers = adjusterNumbers(facts.card);
	if (facts.adjusters.length === 0) return [];
	const isTold = ({ id, condition }: Adjuster): boolean =>
		turns.some(({ adjuster }) => adjuster === id) || (condition !== undefined && condition !== 'free');
	const told = facts.adjusters.length > manyAdjusters ? facts.adjusters.filter(isTold) : facts.adjusters;
	const others = facts.adjusters.filter((one) => !told.includes(one));
	const lines = told.map(({ id, name, stage, condition, highVoltage }) => {
		const turn = turns.find(({ adjuster }) => adjuster === id);
		const own = log.filter(({ adjuster }) => adjuster === id).map((one) => turnWords(one, language));
		const care = [
			condition === undefined || condition === 'free' ? '' : term(condition),
			highVoltage === 'yes' ? say.careOnScrew : '',
		];
		return [
			String(numbers.get(id) ?? ''),
			name,
			term(stage),
			say.netTurn(turn ? turn.eighths : 0),
			turn?.gainDb === null || turn === undefined ? '-' : say.decibels(turn.gainDb),
			own.join('; ') || '-',
			care.filter(Boolean).join('; ') || '-',
		];
	});
	return [
		heading(say.adjusters),
		...(lines.length > 0 ? [{ kind: 'table' as const, heads: say.adjusterHeads, lines }] : []),
		...(others.length > 0
			? [paragraph(say.leftAsFound(others.map(({ id, name }) => `${numbers.get(id) ?? ''} ${name}`).join(', ')))]
			: []),
		...(log.length > 0 ? [paragraph(say.turnSigns)] : []),
		...planPhotoBlocks(photos, facts.card, language),
	];
}

/** Lines of a long table side by side, the first half left. */
function twoUp(lines: readonly (readonly string[])[]): readonly (readonly string[])[] {
	const half = Math.ceil(lines.length / 2);
	const width = lines[0]?.length ?? 0;
	return Array.from({ length: half }, (_, k) => [
		...(lines[k] ?? []),
		...(lines[half + k] ?? Array.from({ length: width }, () => '-')),
	]);
}

function testBlocks({ proof, language }: ReportPaper): readonly PrintedBlock[] {
	const say = reportWords(language);
	const { before, after, differences, isSameGear } = proof;
	const latest = after ?? before;
	if (latest === null) return [heading(say.tests), paragraph(say.noTests)];
	const ids = [...new Set([...latest.findings, ...(before?.findings ?? [])].map(({ id }) => id))];
	const found = (moment: MomentFindings | null, id: string) => moment?.findings.find((one) => one.id === id);
	const lines = ids.map((id) => {
		const early = found(before, id);
		const late = found(after, id);
		const change = differences.find((one) => one.id === id);
		const verdict = latest.verdicts.find(({ finding }) => finding.id === id);
		return [
			(late ?? early)?.label ?? id,
			early ? findingWords(early, language) : '-',
			late ? findingWords(late, language) : '-',
			change ? differenceWords(change, language) : '-',
			verdict ? say.standings[verdict.standing] : '-',
		];
	});
	return [
		heading(say.tests),
		{ kind: 'table', heads: say.testHeads, lines },
		paragraph(latest.verdicts.length > 0 ? `${say.interval} ${say.stands}` : say.interval),
		...(latest.loss === null ? [] : [paragraph(latest.loss)]),
		...(before && after && !isSameGear ? [paragraph(say.otherGear)] : []),
	];
}

function ifCurve({ curves, facts, language }: ReportPaper): readonly PrintedDrawing[] {
	const say = reportWords(language);
	if (curves === null || facts.ifHz === null) return [];
	const files = curves.files.map(({ name, atMs }) => say.fromFile(name, language.day(atMs)));
	const words = [curves.found.length > 0 ? say.curveWords : say.curveOnce, ...files].join(' ');
	const chart = responseChart(
		{
			ifHz: facts.ifHz,
			points: curves.left,
			before: curves.found.length > 0 ? [{ name: null, points: curves.found, isOfOtherScale: false }] : [],
			fit: curves.left.map((point) => ({ ...point, uncertaintyDb: 0 })),
			target: [],
			cursorHz: null,
			widthPx: curvePx.wide,
			heightPx: curvePx.high,
		},
		words,
		language,
	);
	return [{ svg: printed(chart), words, widthMm: chartMm }];
}

function dialCurves({ dials, facts, language }: ReportPaper): readonly PrintedDrawing[] {
	const say = reportWords(language);
	return dials.flatMap(({ band, found, left }): readonly PrintedDrawing[] => {
		if (found.length < 2) return [];
		const line = (words: string, kind: 'plain' | 'dashed', errors: typeof found) => ({
			words,
			kind,
			points: errors.map(({ dialHz, errorHz }) => ({ dialHz, value: errorHz / 1e3 })),
		});
		const isOnce = left.length < 2;
		const lines = isOnce
			? [line(say.dialFound, 'plain', found)]
			: [line(say.dialFound, 'dashed', found), line(say.dialLeft, 'plain', left)];
		const name = facts.bands.find(({ id }) => id === band)?.name ?? band;
		const words = isOnce ? say.dialOnce(name) : say.dialWords(name);
		return [{ svg: printed(bandChart(lines, say.dialUnit, words, curvePx.wide, language)), words, widthMm: chartMm }];
	});
}

/** How the output follows the input. */
function avcDrawing({ proof, readings, language }: ReportPaper): readonly PrintedDrawing[] {
	const curve = (moment: MomentFindings | null) => (moment ? avcCurve(new ReadingBook(readings, moment.gear)) : []);
	const [early, late] = [curve(proof.before), curve(proof.after)];
	if (early.length + late.length <= 2) return [];
	return [
		{
			svg: printed(avcChart(early, late, curvePx.wide, language)),
			words: reportWords(language).avcWords,
			widthMm: chartMm,
		},
	];
}

/** The IF curve, the dials and the AVC curve beside each other. */
function curveBlocks(paper: ReportPaper): readonly PrintedBlock[] {
	const pictures = [...ifCurve(paper), ...dialCurves(paper), ...avcDrawing(paper)];
	return pictures.length === 0
		? []
		: [heading(reportWords(paper.language).curve), { kind: 'pictures', across: 3, pictures }];
}

/** What each test follows, and whether its source was read. */
function sourceBlocks({ proof, language }: ReportPaper): readonly PrintedBlock[] {
	const tests = [...(proof.before?.findings ?? []), ...(proof.after?.findings ?? [])].map(({ test }) => test);
	if (tests.length === 0) return [];
	const say = reportWords(language);
	const rows = [...new Set(tests)].map((test) => {
		const { title, source } = followed(test, language);
		return { name: title, words: sourceWords(source, language) };
	});
	return [heading(say.procedures), { kind: 'rows', rows }];
}

function gearBlocks({ proof, language }: ReportPaper): readonly PrintedBlock[] {
	const say = reportWords(language);
	const toldOf = (moment: MomentFindings | null): string | null => {
		if (moment === null) return null;
		const { generator, generatorLimitDb, attenuatorLimitDb, meter, meterLimitDb, loadOhm } = moment.gear;
		const told = say.gearTold({
			generator,
			volts: generatorLimitDb === null ? say.unknown : say.within(generatorLimitDb),
			attenuator: say.within(attenuatorLimitDb),
			meter,
			reads: say.within(meterLimitDb),
			load: loadOhm === undefined ? say.unknown : resistanceWords(loadOhm),
		});
		const { corrected } = moment;
		return corrected === null ? told : `${told} ${say.corrected(language.day(corrected.table.atMs))}`;
	};
	const [before, after] = [toldOf(proof.before), toldOf(proof.after)];
	const row = (name: string, words: string | null): readonly PrintedRow[] => (words === null ? [] : [{ name, words }]);
	const rows =
		before === after ? row(say.bothTimes, after) : [...row(say.testHeads[1], before), ...row(say.testHeads[2], after)];
	return rows.length === 0 ? [] : [heading(say.gear), { kind: 'rows', rows }];
}

function rawBlocks({ readings, facts, proof, language }: ReportPaper): readonly PrintedBlock[] {
	const gear = (proof.after ?? proof.before)?.gear;
	if (readings.length === 0 || !gear) return [];
	const say = reportWords(language);
	// A raw reading is no place of the dial: its frequencies stand alone.
	const plain = { ...language, dial: language.frequency };
	const labels = new Map(testAsks(facts, new ReadingBook(readings, gear, plain)).map(({ id, label }) => [id, label]));
	const asks = [...new Set(readings.map(({ ask }) => ask))];
	const read = (ask: string, moment: 'before' | 'after'): string => {
		const reading = readings.findLast((one) => one.ask === ask && one.moment === moment);
		return reading ? testValueWords(reading, language) : '-';
	};
	return [
		heading(say.raw),
		{
			kind: 'table',
			heads: [...say.rawHeads, ...say.rawHeads],
			lines: twoUp(asks.map((ask) => [labels.get(ask) ?? ask, read(ask, 'before'), read(ask, 'after')])),
		},
	];
}

function notesBlocks({ notes, answers, facts, language }: ReportPaper): readonly PrintedBlock[] {
	const say = reportWords(language);
	const all = [...(facts.card.notes ? [facts.card.notes] : []), ...notes];
	return [
		heading(say.changed),
		...(all.length === 0 ? [paragraph(say.nothingNoted)] : all.map(paragraph)),
		...(answers.length === 0
			? []
			: [
					heading(say.answers),
					paragraph(answers.map(({ question, answer }) => `${question} ${answer}`).join(' \u00b7 ')),
				]),
	];
}

/** The report of a run: page one for the owner, the rest for the next restorer. */
export function reportDocument(whole: ReportPaper): PrintedDocument {
	const paper = { ...whole, facts: briefFacts(whole.facts, nameLetters) };
	const { facts, language } = paper;
	const title = titleOf(facts);
	const say = reportWords(language);
	const blocks: readonly PrintedBlock[] = [
		...ownerPage(paper),
		{ kind: 'page' },
		heading(say.nextRestorer),
		{ kind: 'cautions', cautions: printedCautions(setCautions(facts, language), language) },
		{
			kind: 'rows',
			rows: [
				...(title === facts.name ? [] : [{ name: say.set, words: facts.name }]),
				...setRows(facts, language).flatMap((row) =>
					row.of === 'notes' ? [] : row.of === 'IF found' ? ifRows(paper) : [row],
				),
			],
		},
		...notesBlocks(paper),
		...adjusterBlocks(paper),
		...curveBlocks(paper),
		...testBlocks(paper),
		...sourceBlocks(paper),
		...gearBlocks(paper),
		...photoBlocks(paper.photos, facts.card, language),
		...rawBlocks(paper),
	];
	return {
		title,
		subtitle: say.subtitle,
		footer: say.footer(title, paper.to),
		...printedFrame(language),
		paper: paper.paper,
		blocks,
	};
}
