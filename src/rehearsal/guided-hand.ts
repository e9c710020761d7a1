import type { Sheet, SheetStep } from '#advice/sheet-step.ts';
import type { Aim } from '#core/estimate/aim.ts';
import type { SetFacts } from '#record/set-facts.ts';
import { guideDial } from './guided-dial.ts';
import { guideIf } from './guided-if.ts';
import { work } from './hand.ts';
import type { SimulatedBench } from './simulated-bench.ts';

/** Windings of a strip that the advice on IF curves names adjusters for. */
const windingsKnown = 4;

/** The step of a group that turns adjusters of a stage. */
function stepFor(
	sheet: Sheet,
	facts: SetFacts,
	stage: 'oscillator' | 'antenna',
	end: 'high' | 'low',
): SheetStep | null {
	const isOf = (id: string): boolean =>
		facts.adjusters.some((adjuster) => adjuster.id === id && adjuster.stage === stage && adjuster.end === end);
	return sheet.steps.find(({ kind, adjusters }) => kind === 'adjust' && adjusters.some(isOf)) ?? null;
}

/** What a hand that is guided goes by: what the card says, and what is wanted of the IF curve. */
export interface Guidance {
	readonly facts: SetFacts;
	readonly aim: Aim;
}

/**
 * Works a sheet with the product's guidance: every adjuster peaked once, then the IF by its curve and the dial by what is heard at its marks.
 * It knows nothing but what the sheet, the response and the dial say.
 */
export function workGuided(bench: SimulatedBench, sheet: Sheet, { facts, aim }: Guidance): void {
	for (const step of sheet.steps) {
		if (step.kind !== 'adjust') continue;
		work(bench, step);
		if (step.group !== 'IF') continue;
		work(bench, step);
		if (step.adjusters.length === windingsKnown && facts.ifHz !== null) guideIf(bench, step, facts.ifHz, aim);
	}
	workDialGuided(bench, sheet, facts);
}

/** Puts the dial of a set's first band right with the product's guidance, where the card says enough of it. */
export function workDialGuided(bench: SimulatedBench, sheet: Sheet, facts: SetFacts): void {
	const [band] = facts.bands;
	const oscillator = stepFor(sheet, facts, 'oscillator', 'high');
	const antenna = stepFor(sheet, facts, 'antenna', 'high');
	const low = stepFor(sheet, facts, 'oscillator', 'low');
	if (!band || band.lowEnd === 'unknown' || facts.ifHz === null || !oscillator || !antenna || !low) return;
	const { design } = bench.set;
	guideDial(
		bench,
		{
			band,
			ifHz: facts.ifHz,
			side: band.oscillator,
			pointsHz: [band.lowMarkHz, Math.sqrt(band.lowMarkHz * band.highMarkHz), band.highMarkHz],
			network: 'gang',
			lowEnd: band.lowEnd,
			hasCutPlates: false,
			readingM: bench.pointerM,
			travelM: design.scaleTravelM,
		},
		{ oscillator, antenna, low },
	);
}
