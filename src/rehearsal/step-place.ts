import type { SheetStep } from '#advice/sheet-step.ts';
import type { SetDesign } from '#core/receiver/design.ts';
import type { SignalInto } from '#core/receiver/position.ts';

/** Where a step puts the generator and the pointer of a virtual set. */
export interface StepPlace {
	readonly frequencyHz: number;
	readonly into: SignalInto;
	readonly dialHz: number;
}

/** Where a step of the sheet puts generator and pointer; a quiet spot is a little above the low end. */
export function stepPlace({ dial, generator, hookUp }: SheetStep, { band, ifHz }: SetDesign): StepPlace {
	return {
		frequencyHz: generator?.frequencyHz ?? ifHz,
		into: hookUp?.connection === 'converter grid' ? 'converter grid' : 'antenna',
		dialHz: dial?.frequencyHz ?? (dial?.kind === 'quiet spot' ? band.lowHz * 1.05 : band.lowHz),
	};
}
