import type { SheetStep } from '#advice/sheet-step.ts';
import type { SetDesign } from '#core/receiver/design.ts';
import { type GeneratorPlace, type SignalInto, standardTone } from '#core/receiver/signal.ts';
import type { Connection } from '#record/connection.ts';

const intoByConnection: Readonly<Partial<Record<Connection, SignalInto>>> = {
	'converter grid': 'converter grid',
	'loose coupling': 'loose coupling',
};

/** Where a step puts the generator and the pointer of a virtual set. */
export interface StepPlace {
	readonly generator: GeneratorPlace;
	readonly dialHz: number;
}

/** Where a step of the sheet puts generator and pointer; a quiet spot is a little above the low end. */
export function stepPlace({ dial, generator, hookUp }: SheetStep, { band, ifHz }: SetDesign): StepPlace {
	return {
		generator: {
			frequencyHz: generator?.frequencyHz ?? ifHz,
			toneHz: generator?.toneHz ?? standardTone.toneHz,
			depth: generator?.depth ?? standardTone.depth,
			into: (hookUp && intoByConnection[hookUp.connection]) ?? 'antenna',
		},
		dialHz: dial?.frequencyHz ?? (dial?.kind === 'quiet spot' ? band.lowHz * 1.05 : band.lowHz),
	};
}
