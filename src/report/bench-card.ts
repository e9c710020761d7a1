import { findingWords } from '#advice/tests/figure-words.ts';
import { chassisPlan } from '#draw/chassis-plan.ts';
import { printed } from '#draw/printed.ts';
import { adjusterNumbers } from '#draw/tags.ts';
import { foremostCautions } from './foremost-cautions.ts';
import type { PrintedDocument } from './printed-document.ts';
import { saidIn } from './report-document.ts';
import type { ReportPaper } from './report-paper.ts';
import { inUnits } from './report-units.ts';
import { reportWords as say } from './report-words.ts';
import { setRows } from './sheet-document.ts';

const planMm = 85;
/** What the card says of the set where somebody opens the cabinet. */
const kept = /^(?:Supply|IF|Band|Tubes|Antenna)/;

/** One page to keep inside the cabinet: cautions, IF, plan, how it was left. */
export function benchCard(paper: ReportPaper): PrintedDocument {
	const { facts, turns, proof, words } = paper;
	const numbers = adjusterNumbers(facts.card);
	const latest = proof.after ?? proof.before;
	const named = facts.adjusters.map(({ id, name }) => {
		const turn = turns.find(({ adjuster }) => adjuster === id);
		return [String(numbers.get(id) ?? ''), name, say.netTurn(turn ? turn.eighths : 0)];
	});
	const half = Math.ceil(named.length / 2);
	const heads = [say.adjusterHeads[0], say.adjusterHeads[1], say.adjusterHeads[3]] as const;
	const sensitivity = (latest?.findings ?? []).filter(({ test }) => test === 'sensitivity');
	return {
		title: facts.name,
		subtitle: say.cardSubtitle,
		footer: say.cardFooter(facts.name, paper.to),
		language: words === 'UK' ? 'en-GB' : 'en-US',
		paper: paper.paper,
		blocks: inUnits(
			paper.units,
			saidIn(words, [
				{ kind: 'paragraph', words: say.cardWarn },
				{ kind: 'cautions', cautions: foremostCautions(facts, 4) },
				{
					kind: 'rows',
					rows: [
						...setRows(facts, words).filter(({ name }) => kept.test(name)),
						...sensitivity.map((finding) => ({ name: finding.label, words: findingWords(finding) })),
					],
				},
				...(named.length === 0
					? []
					: ([
							{
								kind: 'drawing',
								drawing: { svg: printed(chassisPlan(facts.card, null)), words: say.adjusters, widthMm: planMm },
							},
							{ kind: 'paragraph', words: `${say.cardLead} ${paper.to}` },
							{
								kind: 'table',
								heads: [...heads, ...heads],
								lines: Array.from({ length: half }, (_, k) => [
									...(named[k] ?? []),
									...(named[half + k] ?? ['-', '-', '-']),
								]),
							},
						] as const)),
				...(paper.shop === null ? [] : [{ kind: 'rows', rows: [{ name: say.doneBy, words: paper.shop }] } as const]),
			]),
		),
	};
}
