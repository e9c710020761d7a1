import type { Caution } from '#advice/caution.ts';
import { hookUpWords } from '#advice/hook-up-words.ts';
import type { HookUp, Sheet, SheetOptions, SheetStep } from '#advice/sheet-step.ts';
import { chassisPlan } from '#draw/chassis-plan.ts';
import { hookUpDrawing } from '#draw/hook-up.ts';
import { printed } from '#draw/printed.ts';
import { switchablePadDrawing } from '#draw/switchable-pad.ts';
import { adjusterNumbers } from '#draw/tags.ts';
import { britishWords, frequencyWords } from '#record/quantity-words.ts';
import type { Adjuster } from '#record/set-card.ts';
import type { SetFacts } from '#record/set-facts.ts';
import { planPhotoBlocks } from './photo-blocks.ts';
import type {
	Paper,
	PrintedBlock,
	PrintedCaution,
	PrintedDocument,
	PrintedRow,
	PrintedStep,
} from './printed-document.ts';
import type { PrintedPhoto } from './printed-photo.ts';

/** Widths at which the drawings' letters stand at nine points or more on paper. */
const planMm = 92;
const drawingMm = 76;

/** Says a sentence in the words of the sheet, American or British. */
type Said = (words: string) => string;

/** What the sheet is printed for. */
export interface SheetPaper {
	readonly facts: SetFacts;
	readonly sheet: Sheet;
	readonly options: SheetOptions;
	/** Photographs of the set; those with adjusters on them are printed beside the plan. */
	readonly photos: readonly PrintedPhoto[];
	readonly paper: Paper;
	/** The day, as it is printed at the foot. */
	readonly day: string;
}

/** Cautions as they are printed. */
export const printedCautions = (cautions: readonly Caution[]): readonly PrintedCaution[] =>
	cautions.map(({ weight, words }) => ({ sign: weight === 'danger' ? 'Danger' : 'Care', words }));

const row = (name: string, words: string | null | undefined): readonly PrintedRow[] => (words ? [{ name, words }] : []);

const supplyWords = {
	'ac-dc': 'AC/DC, chassis possibly live',
	transformer: 'mains transformer',
	battery: 'battery',
	unknown: 'unknown: taken for a live chassis',
} as const;

const lowEndWords = {
	padder: 'low end by padder',
	slug: 'low end by core',
	none: 'nothing to set at the low end',
	unknown: 'low end not known',
} as const;

/** What the card says of the set, as the head of the sheet carries it. */
export function setRows({ card, bands, ...facts }: SetFacts, words: SheetOptions['words']): readonly PrintedRow[] {
	const tubes = (card.tubes ?? []).map(({ stage, type }) => `${type} ${stage}`).join('; ');
	const gang = card.gang?.capacitance
		? `${card.gang.sections ?? '?'} sections, ${card.gang.capacitance}${card.gang.cutPlates === 'yes' ? ', oscillator plates cut' : ''}`
		: null;
	return [
		...row('Year', card.year?.toString()),
		...row('Supply', `${supplyWords[card.supply]}; common: ${facts.common}`),
		...row('IF as designed', facts.ifHz === null ? 'not known' : frequencyWords(facts.ifHz, words)),
		...row('IF as found', card.ifFound?.map(({ frequency }) => frequency).join(', ') ?? '____________'),
		...bands.flatMap(({ name, lowHz, highHz, oscillator, lowEnd }) =>
			row(
				`Band ${name}`,
				`${frequencyWords(lowHz, words)} to ${frequencyWords(highHz, words)}, oscillator ${oscillator}, ${lowEndWords[lowEnd]}`,
			),
		),
		...row('Gang', gang),
		...row('Antenna', facts.antenna),
		...row('AVC', facts.avc),
		...row('Voice coil', card.voiceCoil),
		...row('Tubes', tubes || null),
		...row('Notes', card.notes),
	];
}

const turnWords = { adds: 'adds', 'takes away': 'takes away', unknown: '' } as const;

function adjusterLine(adjuster: Adjuster, number: number, said: Said): readonly string[] {
	const { name, stage, transformer, winding, end, kind, where, clockwise, highVoltage, condition } = adjuster;
	const place = [stage, transformer, winding, end && `${end} end`].filter(Boolean).join(' ');
	const care = [
		highVoltage === 'yes' ? 'B-plus on the screw' : highVoltage === 'no' ? '' : 'voltage on the screw not known',
		condition === 'free' || condition === undefined ? '' : condition,
	];
	return [
		String(number),
		name,
		said(place),
		[kind, where].filter(Boolean).join(', '),
		turnWords[clockwise ?? 'unknown'],
		said(care.filter(Boolean).join('; ')),
		'',
	];
}

function adjusterBlocks({ card }: SetFacts, photos: readonly PrintedPhoto[], said: Said): readonly PrintedBlock[] {
	const adjusters = card.adjusters ?? [];
	if (adjusters.length === 0) return [];
	const numbers = adjusterNumbers(card);
	return [
		{ kind: 'heading', words: 'Adjusters' },
		{
			kind: 'drawing',
			drawing: {
				svg: printed(chassisPlan(card, null)),
				words: `Chassis from above with ${adjusters.length} numbered adjusters; those dashed are under the chassis.`,
				widthMm: planMm,
			},
		},
		...planPhotoBlocks(photos, card),
		{
			kind: 'table',
			heads: ['No.', 'Name', 'Stage', 'Kind', 'Clockwise', 'Care', 'Turned'],
			lines: adjusters.map((adjuster) => adjusterLine(adjuster, numbers.get(adjuster.id) ?? 0, said)),
		},
	];
}

function padBlocks({ pad }: Sheet): readonly PrintedBlock[] {
	if (pad === null) return [];
	return [
		{ kind: 'heading', words: 'Pad for the generator' },
		{
			kind: 'drawing',
			drawing: {
				svg: printed(switchablePadDrawing(pad)),
				words: 'Switchable pad, resistors in ohms',
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

function hookUpRows(hookUp: HookUp, drawn: DrawnBefore | null): readonly PrintedRow[] {
	const to = hookUpWords(hookUp);
	return drawn === null
		? [...row('Generator to', to), ...row('Why', hookUp.why), ...row('Ground', hookUp.ground)]
		: row(
				'Hook-up',
				`${drawn.isKept ? 'stays as it is,' : 'as'} drawn at step ${drawn.number}: ${to}; ground: ${hookUp.ground}`,
			);
}

function printedStep(
	step: SheetStep,
	drawn: DrawnBefore | null,
	facts: SetFacts,
	nameOf: (id: string) => string,
	said: Said,
): PrintedStep {
	const { hookUp, generator, dial, indicator } = step;
	const svg = drawn === null ? hookUpDrawing(step, facts.liveChassis, said) : null;
	const adjust = `${step.adjusters.map(nameOf).join(', ')}${step.aim ? `, for ${step.aim}` : ''}${step.rock ? ', rocking the dial' : ''}`;
	return {
		kind: 'step',
		number: step.number,
		title: step.title,
		instructions: step.instructions,
		rows: [
			...(hookUp ? hookUpRows(hookUp, drawn) : []).map(({ name, words }) => ({ name: said(name), words: said(words) })),
			...row('Generator', generator && `${generator.words}. ${generator.levelRule}`),
			...row('Dial', dial?.words),
			...row('Adjust', step.adjusters.length > 0 ? adjust : null),
			...row('Read', indicator?.where),
		],
		blanks: step.questions.map(({ words }) => words),
		pencil:
			step.kind === 'adjust'
				? {
						heads: ['Adjuster', 'Before', 'After', 'Turned'],
						lines: step.adjusters.map((id) => [nameOf(id), '', '', '']),
					}
				: null,
		remarks: step.remarks,
		cautions: printedCautions(step.cautions),
		drawing: svg === null ? null : { svg: printed(svg), words: `Hook-up for step ${step.number}`, widthMm: drawingMm },
	};
}

/** The alignment sheet of one set as a document for paper. */
export function sheetDocument({ facts, sheet, options, photos, paper, day }: SheetPaper): PrintedDocument {
	const numbers = adjusterNumbers(facts.card);
	const nameOf = (id: string): string =>
		`${numbers.get(id) ?? '?'} ${facts.adjusters.find((adjuster) => adjuster.id === id)?.name ?? id}`;
	const said: Said = options.words === 'UK' ? britishWords : (words) => words;
	const blocks: readonly PrintedBlock[] = [
		{ kind: 'rows', rows: setRows(facts, options.words).map(({ name, words }) => ({ name: said(name), words })) },
		{ kind: 'cautions', cautions: printedCautions(sheet.cautions) },
		...(sheet.assumptions.length > 0
			? ([
					{ kind: 'heading', words: 'Assumed' },
					{
						kind: 'rows',
						rows: sheet.assumptions.map(({ what, assumed, why }) => ({ name: what, words: `${assumed}; ${why}` })),
					},
				] as const)
			: []),
		...adjusterBlocks(facts, photos, said),
		...padBlocks(sheet),
		{ kind: 'heading', words: 'The work, in its order' },
		...sheet.steps.map((step, at) => printedStep(step, drawnBefore(sheet.steps, at), facts, nameOf, said)),
		{ kind: 'heading', words: 'Notes' },
		{ kind: 'table', heads: ['Day', 'Line voltage', 'What was done or heard'], lines: Array(5).fill(['', '', '']) },
	];
	return {
		title: facts.name,
		subtitle: 'Alignment sheet',
		footer: `${facts.name} · alignment sheet · ${day}`,
		language: options.words === 'UK' ? 'en-GB' : 'en-US',
		paper,
		blocks,
	};
}
