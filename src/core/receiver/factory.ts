import { adjusterValue, turnsFor } from '#core/circuit/adjuster-law.ts';
import { gangTuning } from '#core/circuit/gang.ts';
import type { SetDesign } from './design.ts';

/**
 * Turns of every adjuster as the set left its maker: each IF winding and the wave trap alone on the IF,
 * oscillator and antenna as drawn.
 */
export function factoryTurns(design: SetDesign): Readonly<Record<string, number>> {
	const perHenry = 1 / (2 * Math.PI * design.ifHz) ** 2;
	const wanted: Record<string, number> = {
		[design.trap.adjuster]: perHenry / design.trap.henry - design.trap.fixedF,
		[design.antenna.adjuster]: design.antenna.factoryTrimmerF,
		[design.oscillator.trimmer]: design.oscillator.factoryTrimmerF,
		[design.oscillator.padder]: design.oscillator.factoryPadderF,
	};
	for (const { adjuster, henry, fixedF } of design.windings) {
		const isSlug = design.adjusters[adjuster]?.kind === 'slug';
		wanted[adjuster] = isSlug ? perHenry / fixedF : perHenry / henry - fixedF;
	}
	return Object.fromEntries(
		Object.entries(design.adjusters).map(([id, law]) => [id, turnsFor(law, wanted[id] ?? adjusterValue(law, 0))]),
	);
}

/** Where the gang stands when the set, as the factory drew its scale, has its pointer on a mark: 0 meshed to 1 open. */
export function markTuning({ gang, oscillator, ifHz }: SetDesign, dialHz: number): number {
	const omega = 2 * Math.PI * (dialHz + ifHz);
	const wholeF = 1 / (omega * omega * oscillator.henry);
	const padderF = oscillator.padderFixedF + oscillator.factoryPadderF;
	const acrossF = (wholeF * padderF) / (padderF - wholeF);
	return gangTuning(gang, acrossF - oscillator.strayF - oscillator.factoryTrimmerF);
}
