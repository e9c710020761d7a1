import { type DatedCheck, type KnownGenerator, knownGenerators } from './generator-place.ts';
import { type MeasuredGenerator, measuredGenerators } from './marked-level.ts';
import type { DatedTrial } from './marked-table.ts';

/** What is known of a person's generators. */
export interface GeneratorsKnown {
	/** Those whose dial was checked. */
	readonly dials: readonly KnownGenerator[];
	/** Those whose attenuator or leak was measured. */
	readonly levels: readonly MeasuredGenerator[];
}

/** Before anything was checked. */
export const noGenerators: GeneratorsKnown = { dials: [], levels: [] };

/** What checks and trials in any order say of a person's generators. */
export function generatorsKnown(
	{ checks, trials }: { readonly checks: readonly DatedCheck[]; readonly trials: readonly DatedTrial[] },
	nowMs: number,
): GeneratorsKnown {
	return { dials: knownGenerators(checks, nowMs), levels: measuredGenerators(trials) };
}
