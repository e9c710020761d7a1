import { hookUpWords } from '#advice/hook-up-words.ts';
import type { HookUp, Sheet, SheetStep } from '#advice/sheet-step.ts';
import { chassisPlan } from '#draw/chassis-plan.ts';
import { hookUpDrawing } from '#draw/hook-up.ts';
import { printed } from '#draw/printed.ts';
import { switchablePadDrawing } from '#draw/switchable-pad.ts';
import { adjusterNumbers } from '#draw/tags.ts';
import type { Language } from '#record/language.ts';
import type { Adjuster } from '#record/set-card.ts';
import type { SetFacts } from '#record/set-facts.ts';
import { titleOf } from './brief-facts.ts';
import { planPhotoBlocks } from './photo-blocks.ts';
import { printedCautions } from './printed-cautions.ts';
import {
	type Paper,
	type PrintedBlock,
	type PrintedDocument,
	type PrintedRow,
	type PrintedStep,
	printedFrame,
} from './printed-document.ts';
import type { PrintedPhoto } from './printed-photo.ts';
import { setRows } from './set-rows.ts';

/** Widths at which the drawings' letters stand at nine points or more on paper. */
const planMm = 92;
const drawingMm = 76;

/** What the sheet is printed for. */
export interface SheetPaper {
	readonly facts: SetFacts;
	readonly sheet: Sheet;
	/** That of the sheet. */
	readonly language: Language;
	/** Photographs of the set; those with adjusters on them are printed beside the plan. */
	readonly photos: readonly PrintedPhoto[];
	readonly paper: Paper;
	/** The day, as it is printed at the foot. */
	readonly day: string;
}

const row = (name: string, words: string | null | undefined): readonly PrintedRow[] => (words ? [{ name, words }] : []);

function adjusterLine(adjuster: Adjuster, number: number, { say, term }: Language): readonly string[] {
	const { name, stage, transformer, winding, end, kind, where, clockwise, highVoltage, condition } = adjuster;
	const ends = end === 'high' ? say`high end` : end === 'low' ? say`low end` : '';
	const place = [term(stage), transformer, winding && term(winding), ends].filter(Boolean).join(' ');
	const care = [
		highVoltage === 'yes' ? say`B-plus on the screw` : highVoltage === 'no' ? '' : say`voltage on the screw not known`,
		condition === 'free' || condition === undefined ? '' : term(condition),
	];
	return [
		String(number),
		name,
		place,
		[term(kind), where && term(where)].filter(Boolean).join(', '),
		clockwise === undefined || clockwise === 'unknown' ? '' : term(clockwise),
		care.filter(Boolean).join('; '),
		'',
	];
}

function adjusterBlocks(
	{ card }: SetFacts,
	photos: readonly PrintedPhoto[],
	language: Language,
): readonly PrintedBlock[] {
	const { say } = language;
	const adjusters = card.adjusters ?? [];
	if (adjusters.length === 0) return [];
	const numbers = adjusterNumbers(card);
	return [
		{ kind: 'heading', words: say`Adjusters` },
		{
			kind: 'drawing',
			drawing: {
				svg: printed(chassisPlan(card, null, language)),
				words: say`Chassis from above with ${adjusters.length} numbered adjusters; those dashed are under the chassis.`,
				widthMm: planMm,
			},
		},
		...planPhotoBlocks(photos, card, language),
		{
			kind: 'table',
			heads: [say`No.`, say`Name`, say`Stage`, say`Kind`, say`Clockwise`, say`Care`, say`Turned`],
			lines: adjusters.map((adjuster) => adjusterLine(adjuster, numbers.get(adjuster.id) ?? 0, language)),
		},
	];
}

function padBlocks({ pad }: Sheet, language: Language): readonly PrintedBlock[] {
	if (pad === null) return [];
	const { say } = language;
	return [
		{ kind: 'heading', words: say`Pad for the generator` },
		{
			kind: 'drawing',
			drawing: {
				svg: printed(switchablePadDrawing(pad, language)),
				words: say`Switchable pad, resistors in ohms`,
				widthMm: drawingMm,
			},
		},
		...pad.words.map((words) => ({ kind: 'paragraph', words }) as const),
	];
}

/** An earlier step with the same hook-up, whose drawing serves; `isKept` when the leads have stayed as they were since. */
interface DrawnBefore {
	readonly number: number;
	readonly isKept: boolean;
}

function drawnBefore(steps: readonly SheetStep[], at: number): DrawnBefore | null {
	const wanted = JSON.stringify(steps[at]?.hookUp);
	const same = (step: SheetStep | undefined) => JSON.stringify(step?.hookUp) === wanted;
	const first = steps.slice(0, at).find(same);
	return first && steps[at]?.hookUp ? { number: first.number, isKept: same(steps[at - 1]) } : null;
}

function hookUpRows(hookUp: HookUp, drawn: DrawnBefore | null, language: Language): readonly PrintedRow[] {
	const { say } = language;
	const to = hookUpWords(hookUp, language);
	const { ground } = hookUp;
	if (drawn === null) return [...row(say`Generator to`, to), ...row(say`Why`, hookUp.why), ...row(say`Ground`, ground)];
	return row(
		say`Hook-up`,
		drawn.isKept
			? say`stays as it is, drawn at step ${drawn.number}: ${to}; ground: ${ground}`
			: say`as drawn at step ${drawn.number}: ${to}; ground: ${ground}`,
	);
}

/** Which adjusters are turned, what for, and whether the dial is rocked meanwhile. */
function adjustWords({ aim, rock }: SheetStep, names: string, { say, term }: Language): string {
	const aimed = aim ? say`${names}, for ${term(aim)}` : names;
	return rock ? say`${aimed}, rocking the dial` : aimed;
}

function printedStep(
	step: SheetStep,
	drawn: DrawnBefore | null,
	facts: SetFacts,
	nameOf: (id: string) => string,
	language: Language,
): PrintedStep {
	const { say } = language;
	const { hookUp, generator, dial, indicator } = step;
	const svg = drawn === null ? hookUpDrawing(step, facts.liveChassis, language) : null;
	const adjust = adjustWords(step, step.adjusters.map(nameOf).join(', '), language);
	return {
		kind: 'step',
		number: step.number,
		title: step.title,
		instructions: step.instructions,
		rows: [
			...(hookUp ? hookUpRows(hookUp, drawn, language) : []),
			...row(say`Generator`, generator && `${generator.words}. ${generator.levelRule}`),
			...row(say`Dial`, dial?.words),
			...row(say`Adjust`, step.adjusters.length > 0 ? adjust : null),
			...row(say`Read`, indicator?.where),
		],
		blanks: step.questions.map(({ words }) => words),
		pencil:
			step.kind === 'adjust'
				? {
						heads: [say`Adjuster`, say`Before`, say`After`, say`Turned`],
						lines: step.adjusters.map((id) => [nameOf(id), '', '', '']),
					}
				: null,
		remarks: step.remarks,
		cautions: printedCautions(step.cautions, language),
		drawing:
			svg === null ? null : { svg: printed(svg), words: say`Hook-up for step ${step.number}`, widthMm: drawingMm },
	};
}

/** The alignment sheet of one set as a document for paper. */
export function sheetDocument({ facts, sheet, language, photos, paper, day }: SheetPaper): PrintedDocument {
	const numbers = adjusterNumbers(facts.card);
	const nameOf = (id: string): string =>
		`${numbers.get(id) ?? '?'} ${facts.adjusters.find((adjuster) => adjuster.id === id)?.name ?? id}`;
	const { say } = language;
	const title = titleOf(facts);
	const name = title === facts.name ? null : facts.name;
	const blocks: readonly PrintedBlock[] = [
		{ kind: 'rows', rows: [...row(say`Set`, name), ...setRows(facts, language)] },
		{ kind: 'cautions', cautions: printedCautions(sheet.cautions, language) },
		...(sheet.assumptions.length > 0
			? ([
					{ kind: 'heading', words: say`Assumed` },
					{
						kind: 'rows',
						rows: sheet.assumptions.map(({ what, assumed, why }) => ({ name: what, words: `${assumed}; ${why}` })),
					},
				] as const)
			: []),
		...adjusterBlocks(facts, photos, language),
		...padBlocks(sheet, language),
		{ kind: 'heading', words: say`The work, in its order` },
		...sheet.steps.map((step, at) => printedStep(step, drawnBefore(sheet.steps, at), facts, nameOf, language)),
		{ kind: 'heading', words: say`Notes` },
		{
			kind: 'table',
			heads: [say`Day`, say`Line voltage`, say`What was done or heard`],
			lines: Array(5).fill(['', '', '']),
		},
	];
	return {
		title,
		subtitle: say`Alignment sheet`,
		footer: say`${title} · alignment sheet · ${day}`,
		...printedFrame(language),
		paper,
		blocks,
	};
}
