import { createRandom } from '../src/core/numeric/random.ts';
import type { BenchSet } from '../src/core/receiver/bench-set.ts';
import { ifCurve } from '../src/core/receiver/if-curve.ts';
import type { Happening, RunEntry } from '../src/record/run.ts';
import { exampleCard } from './example-set.ts';

/** Happenings as the entries of a run, the entry ids counted. */
export const runEntries = (happenings: readonly Happening[]): RunEntry[] =>
	happenings.map((what, order) => ({ id: `e${order}`, run: 'r', order, atMs: 1000 * order, what }));

/** An adjuster turned, and nothing read of it. */
export const turned = (adjuster: string, eighths: number | null): Happening => ({
	kind: 'adjusted',
	step: 's',
	pass: 1,
	adjuster,
	eighths,
	beforeDb: null,
	afterDb: null,
	bestDb: null,
});

/** The beginning of a run on the demo set. */
export function started(): Happening {
	return { kind: 'started', card: exampleCard(), options: {}, meter: 'typed', generator: 'typed' };
}

/** How a hand sweep is read. */
export interface PaperSweep {
	/** Order of the entry that begins it. */
	readonly order: number;
	readonly role?: 'base' | 'nudge' | 'second level';
	readonly adjuster?: string;
	readonly instrument?: string;
	/** What the meter makes of a level of the curve. */
	readonly shown?: (levelDb: number) => number;
	/** The meter is kept at one reading: generator level at the peak, decibels of one volt. */
	readonly heldDbv?: number;
}

/** A sweep of a set's IF curve, a point each kilocycle over 25 kc either side, read to 0.05 dB. */
export function sweptByHand(set: BenchSet, sweep: PaperSweep): Happening[] {
	const { order, role = 'base', adjuster, instrument = 'virtual set', shown = (levelDb) => levelDb, heldDbv } = sweep;
	const random = createRandom(order + 1);
	const { ifHz } = set.design;
	const curve = ifCurve(set);
	const points = Array.from({ length: 51 }, (_, k): Happening => {
		const frequencyHz = ifHz + (k - 25) * 1e3;
		const levelDb = shown(curve.levelDb(frequencyHz)) + 0.05 * random.gaussian();
		return {
			kind: 'sweep point',
			sweep: `e${order}`,
			frequencyHz,
			...(heldDbv === undefined ? {} : { isGeneratorLevel: true as const }),
			reading: {
				kind: 'level',
				atMs: k,
				instrument,
				levelDb: { value: heldDbv === undefined ? levelDb : heldDbv - levelDb, uncertainty: 0.05 },
				reference: 'dBV',
				quantity: 'tone',
				trust: 'ok',
			},
		};
	});
	return [{ kind: 'sweep begun', role, ...(adjuster === undefined ? {} : { adjuster }) }, ...points];
}
