import { type Language, languageOf } from '#record/language.ts';
import type { Parsed } from '#record/parsed.ts';
import { type BandFacts, type SetFacts, setFacts } from '#record/set-facts.ts';
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
	const { say, dial } = ground.language;
	const isOnly = ground.facts.bands.length === 1;
	const marks = [band.lowMarkHz, (band.lowMarkHz + band.highMarkHz) / 2, band.highMarkHz].map((markHz) => dial(markHz));
	const hasGenerator = ground.options.generator !== 'none';
	return draftStep(ground, {
		id: ground.facts.bands[0] === band ? 'proof' : `proof-${band.id}`,
		group: 'proof',
		kind: 'measure',
		band: band.id,
		title: isOnly ? say`Proof` : say`Proof of ${band.name}`,
		instructions: [
			hasGenerator
				? say`At ${marks.join(', ')}: set the generator for the same reading each time and note its level; note also where the signal comes in.`
				: say`Near ${marks.join(', ')}: take a station of known frequency and note where it comes in.`,
			say`Listen for squeal, crackle and hum over the whole band.`,
			say`Seal nothing that may be wanted again; a drop of soft wax will do.`,
		],
		...(hasGenerator
			? { hookUp: antennaHookUp(ground, band.highMarkHz), generator: generatorRow(ground, null, marks.join(', ')) }
			: {}),
		dial: { kind: 'mark', frequencyHz: null, words: say`pointer on each of ${marks.join(', ')}` },
		indicator: indicator(ground),
		questions: marks.map((markWords, index) => ({
			id: isOnly ? `heard-${index + 1}` : `heard-${band.id}-${index + 1}`,
			words: say`Pointer on ${markWords}: the set receives`,
			answer: 'frequency' as const,
		})),
		remarks: isOnly ? [] : [say`Band switch to this band.`],
	});
}

/** Whether a step joins generator and set in another way than the step before it, by leads that touch. */
function isHookedAnew(drafts: readonly DraftStep[], at: number): boolean {
	const hookUp = drafts[at]?.hookUp;
	if (!hookUp || hookUp.ground === 'none') return false;
	const before = drafts[at - 1]?.hookUp;
	return before?.point !== hookUp.point || before.dummy !== hookUp.dummy;
}

/**
 * The alignment sheet for one set: steps in the order of the work, or why none can be made.
 * Order and rules are common practice of the trade: last IF first, wave trap, high end, low end, repeat, proof.
 */
export function makeSheet(
	facts: SetFacts,
	options: SheetOptions,
	language: Language = languageOf(options.words, options.units),
): Parsed<Sheet> {
	const why = obstacle(facts);
	if (why !== null) return { ok: false, words: why };
	const { say } = language;
	// What was assumed is said anew, in the language of the sheet.
	const told = setFacts(facts.card, language);
	const ground: SheetGround = { facts, options, language };
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
		cautions: isHookedAnew(drafts, index) ? [hookUpCaution(facts, language), ...draft.cautions] : draft.cautions,
	}));
	const assumptions = [
		...(told.ok ? told.value.assumptions : []),
		...(options.generator === 'none'
			? [
					{
						what: say`IF transformers`,
						assumed: say`left as they are`,
						why: say`without a generator there is nothing to set them by`,
					},
				]
			: []),
	];
	const sheet: Sheet = {
		title: say`Alignment of ${facts.name}`,
		steps,
		cautions: setCautions(facts, language),
		assumptions,
		pad: options.attenuator === 'coarse' && options.generator !== 'none' ? switchablePad(language) : null,
	};
	return { ok: true, value: sheet };
}
