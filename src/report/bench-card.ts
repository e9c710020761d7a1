import { sensitivityAsk } from '#advice/tests/asks.ts';
import { findingWords } from '#advice/tests/figure-words.ts';
import { testMarks } from '#advice/tests/marks.ts';
import { chassisPlan } from '#draw/chassis-plan.ts';
import { printed } from '#draw/printed.ts';
import { adjusterNumbers } from '#draw/tags.ts';
import { shownWords } from '#record/shown-words.ts';
import { briefFacts, manyAdjusters, titleOf } from './brief-facts.ts';
import { ifRows } from './if-by-curve.ts';
import { planPictures } from './photo-blocks.ts';
import { foremostCautions } from './printed-cautions.ts';
import { type PrintedBlock, type PrintedDocument, type PrintedRow, printedFrame } from './printed-document.ts';
import type { ReportPaper } from './report-paper.ts';
import { reportWords, signedTurn } from './report-words.ts';
import { type SetRow, setRows } from './set-rows.ts';

const planMm = 82;
/** So high that the card stays one page. */
const planHighMm = 60;
/** Longest name on the card, characters; where adjusters are many, theirs. */
const nameLetters = 28;
const closeLetters = 14;
/** More bands or tubes than these stand in one row, without their details. */
const manyBands = 4;
const manyTubes = 12;
/** What the card says of the set where somebody opens the cabinet. */
const kept: readonly SetRow['of'][] = ['supply', 'IF designed', 'IF found', 'band', 'tubes', 'antenna'];

const paragraph = (words: string): PrintedBlock => ({ kind: 'paragraph', words });

/** The chassis plan: over the photographs where these number every adjuster, else as drawn, with the first photograph beside it. */
function planBlocks({ facts: { card }, photos, language }: ReportPaper): readonly PrintedBlock[] {
	const words = reportWords(language).adjusters;
	const drawn = { svg: printed(chassisPlan(card, null, language)), words, widthMm: planMm };
	const { pictures, isWhole } = planPictures(photos, card, language, planHighMm);
	if (pictures.length === 0) return [{ kind: 'drawing', drawing: drawn }];
	return [{ kind: 'pictures', across: 2, pictures: isWhole ? pictures : [drawn, ...pictures.slice(0, 1)] }];
}

/** The input that the set was left with at each mark of its dial. */
function sensitivityRow({ facts, proof, language }: ReportPaper): readonly PrintedRow[] {
	const words = reportWords(language);
	const findings = (proof.after ?? proof.before)?.findings ?? [];
	if (findings.length === 0) return [];
	const { lowHz, middleHz, highHz } = testMarks(facts);
	const figures = [lowHz, middleHz, highHz].flatMap((dialHz) => {
		const found = findings.find(({ id }) => id === sensitivityAsk(dialHz));
		return found ? [words.figureAt(findingWords(found, language), language.dial(dialHz))] : [];
	});
	return figures.length === 0 ? [] : [{ name: words.sensitivity, words: figures.join('; ') }];
}

/** What the card says of the set, many bands and tubes told briefly. */
function cardRows(paper: ReportPaper): readonly PrintedRow[] {
	const { facts, language } = paper;
	const say = reportWords(language);
	const isBrief = facts.bands.length > manyBands;
	const bands = facts.bands.map(({ name, lowHz, highHz }) =>
		say.bandEnds(name, language.dial(lowHz), language.dial(highHz)),
	);
	const types = (facts.card.tubes ?? []).map(({ type }) => type);
	return setRows(facts, language)
		.filter(({ of }) => kept.includes(of) && !(isBrief && of === 'band'))
		.flatMap((row): readonly PrintedRow[] => {
			if (row.of === 'IF found') return ifRows(paper);
			if (row.of === 'tubes' && types.length > manyTubes) return [{ name: row.name, words: types.join(', ') }];
			if (row.of === 'antenna' && isBrief) return [{ name: say.bands, words: bands.join('; ') }, row];
			return [row];
		});
}

/** Adjusters side by side in two halves, or three thirds where they are many. */
function adjusterTable(words: ReturnType<typeof reportWords>, named: readonly (readonly string[])[]): PrintedBlock {
	const heads = [words.adjusterHeads[0], words.adjusterHeads[1], words.adjusterHeads[3]] as readonly string[];
	const across = named.length > manyAdjusters ? 3 : 2;
	const down = Math.ceil(named.length / across);
	const columns = Array.from({ length: across }, (_, k) => named.slice(k * down, (k + 1) * down));
	return {
		kind: 'table',
		heads: columns.flatMap(() => heads),
		lines: Array.from({ length: down }, (_, k) => columns.flatMap((column) => column[k] ?? ['-', '-', '-'])),
	};
}

/** One page to keep inside the cabinet: cautions, IF, plan, how it was left. */
export function benchCard(whole: ReportPaper): PrintedDocument {
	const paper = { ...whole, facts: briefFacts(whole.facts, nameLetters) };
	const { facts, turns, language } = paper;
	const title = titleOf(facts);
	const say = reportWords(language);
	const numbers = adjusterNumbers(facts.card);
	const isClose = facts.adjusters.length > manyAdjusters;
	const named = facts.adjusters.map(({ id, name }) => {
		const eighths = turns.find(({ adjuster }) => adjuster === id)?.eighths;
		const turned = eighths === undefined ? 0 : eighths;
		return [
			String(numbers.get(id) ?? ''),
			isClose ? shownWords(name, closeLetters) : name,
			isClose ? signedTurn(turned, language) : say.netTurn(turned),
		];
	});
	return {
		title,
		subtitle: say.cardSubtitle,
		footer: say.cardFooter(title, paper.to),
		...printedFrame(language),
		paper: paper.paper,
		blocks: [
			paragraph(say.cardWarn),
			{ kind: 'cautions', cautions: foremostCautions(facts, 4, language) },
			{
				kind: 'rows',
				rows: [...cardRows(paper), ...sensitivityRow(paper)],
			},
			...(named.length === 0
				? []
				: [
						...planBlocks(paper),
						paragraph(isClose ? `${say.cardLead} ${paper.to}. ${say.cardSigns}` : `${say.cardLead} ${paper.to}`),
						adjusterTable(say, named),
					]),
			...(paper.shop === null ? [] : [{ kind: 'rows', rows: [{ name: say.doneBy, words: paper.shop }] } as const]),
		],
	};
}
