import type { Parsed } from '#record/parsed.ts';
import { britishWords, frequencyWords } from '#record/quantity-words.ts';
import type { BandFacts, SetFacts } from '#record/set-facts.ts';
import { hookUpCaution, setCautions } from './cautions.ts';
import { antennaHookUp, type DraftStep, draftStep, generatorRow, indicator, type SheetGround } from './draft-step.ts';
import { bandSteps } from './sheet-bands.ts';
import { ifSteps } from './sheet-if.ts';
import { openingSteps } from './sheet-opening.ts';
import type { Sheet, SheetOptions, SheetStep } from './sheet-step.ts';
import { switchablePad } from './switchable-pad.ts';

/** Why no sheet can be made for this set, or `null`. */
function obstacle(facts: SetFacts): string | null {
	const { card, bands } = facts;
	const kinds: readonly (readonly [boolean, string])[] = [
		[card.circuit !== undefined && card.circuit !== 'superhet', `${card.circuit} sets`],
		[card.active === 'transistors', 'transistor sets'],
		[card.tuning === 'permeability', 'sets tuned by moving cores'],
		[(card.bands ?? []).some(({ modulation }) => modulation === 'FM'), 'FM bands'],
		[bands.length > 2, 'sets of more than two bands'],
		[
			(card.ifDesigned ?? []).some(({ use }) => use === 'first of two' || use === 'second of two'),
			'sets with two IFs in a row',
		],
	];
	const found = kinds.find(([present]) => present);
	return found ? `no sheet is made for ${found[1]} yet: the card is kept; take the maker's own instructions` : null;
}

/** Proof of one band: what the generator must give, and where the signal comes in, at three places of the dial. */
function proof(ground: SheetGround, band: BandFacts): DraftStep {
	const { words } = ground.options;
	const isOnly = ground.facts.bands.length === 1;
	const marks = [band.lowMarkHz, (band.lowMarkHz + band.highMarkHz) / 2, band.highMarkHz].map((markHz) =>
		frequencyWords(markHz, words),
	);
	const hasGenerator = ground.options.generator !== 'none';
	return draftStep(ground, {
		id: ground.facts.bands[0] === band ? 'proof' : `proof-${band.id}`,
		group: 'proof',
		kind: 'measure',
		band: band.id,
		title: isOnly ? 'Proof' : `Proof of ${band.name}`,
		instructions: [
			hasGenerator
				? `At ${marks.join(', ')}: set the generator for the same reading each time and note its level; note also where the signal comes in.`
				: `Near ${marks.join(', ')}: take a station of known frequency and note where it comes in.`,
			'Listen for squeal, crackle and hum over the whole band.',
			'Seal nothing that may be wanted again; a drop of soft wax will do.',
		],
		...(hasGenerator
			? { hookUp: antennaHookUp(ground, band.highMarkHz), generator: generatorRow(ground, null, marks.join(', ')) }
			: {}),
		dial: { kind: 'mark', frequencyHz: null, words: `pointer on each of ${marks.join(', ')}` },
		indicator: indicator(ground),
		questions: marks.map((markWords, index) => ({
			id: isOnly ? `heard-${index + 1}` : `heard-${band.id}-${index + 1}`,
			words: `Pointer on ${markWords}: the set receives`,
			answer: 'frequency' as const,
		})),
		remarks: isOnly ? [] : ['Band switch to this band.'],
	});
}

/** Whether a step joins generator and set in another way than the step before it, by leads that touch. */
function isHookedAnew(drafts: readonly DraftStep[], at: number): boolean {
	const hookUp = drafts[at]?.hookUp;
	if (!hookUp || hookUp.ground === 'none') return false;
	const before = drafts[at - 1]?.hookUp;
	return before?.point !== hookUp.point || before.dummy !== hookUp.dummy;
}

/** Says every sentence of the sheet in British words. */
function inBritishWords<T>(value: T): T {
	const said = (inner: unknown, key: string): unknown => {
		if (typeof inner === 'string')
			return ['id', 'connection', 'kind', 'group', 'quantity', 'answer', 'aim', 'weight', 'band'].includes(key)
				? inner
				: britishWords(inner);
		if (Array.isArray(inner))
			return inner.map((item) => (key === 'adjusters' || key === 'repeat' ? item : said(item, key)));
		if (typeof inner === 'object' && inner !== null)
			return Object.fromEntries(Object.entries(inner).map(([name, item]) => [name, said(item, name)]));
		return inner;
	};
	return said(value, '') as T;
}

/**
 * The alignment sheet for one set: steps in the order of the work, or why none can be made.
 * Order and rules are common practice of the trade: last IF first, wave trap, high end, low end, repeat, proof.
 */
export function makeSheet(facts: SetFacts, options: SheetOptions): Parsed<Sheet> {
	const why = obstacle(facts);
	if (why !== null) return { ok: false, words: why };
	const ground: SheetGround = { facts, options };
	const strip = options.generator === 'none' ? [] : ifSteps(ground);
	// Bands are aligned to an IF: until it is decided, the sheet ends with finding it.
	const ends =
		facts.ifHz === null && options.generator !== 'none'
			? []
			: [...facts.bands.flatMap((band) => bandSteps(ground, band)), ...facts.bands.map((band) => proof(ground, band))];
	const drafts = [...openingSteps(ground), ...strip, ...ends];
	const steps: readonly SheetStep[] = drafts.map((draft, index) => ({
		...draft,
		number: index + 1,
		cautions: isHookedAnew(drafts, index) ? [hookUpCaution(facts), ...draft.cautions] : draft.cautions,
	}));
	const assumptions = [
		...facts.assumptions,
		...(options.generator === 'none'
			? [
					{
						what: 'IF transformers',
						assumed: 'left as they are',
						why: 'without a generator there is nothing to set them by',
					},
				]
			: []),
	];
	const sheet: Sheet = {
		title: `Alignment of ${facts.name}`,
		steps,
		cautions: setCautions(facts),
		assumptions,
		pad: options.attenuator === 'coarse' && options.generator !== 'none' ? switchablePad() : null,
	};
	return { ok: true, value: options.words === 'UK' ? inBritishWords(sheet) : sheet };
}
