import { adjusterValue, turnsFor } from '#core/circuit/adjuster-law.ts';
import { createRandom } from '#core/numeric/random.ts';
import type { BenchSet } from './bench-set.ts';
import type { SetDesign } from './design.ts';
import { factoryTurns } from './factory.ts';
import type { Fault } from './faults.ts';

/** How far a tampered set's adjusters are from the factory's, at most: farads for trimmers, a share of the inductance for cores (chosen). */
const spread = { trimmerF: 10e-12, padderF: 30e-12, slugShare: 0.06, pointerM: 0.8e-3 } as const;

/** A tampered set: every adjuster moved at random within the spread, the pointer slipped a little. The same seed gives the same set. */
export function tamperedSet(design: SetDesign, seed: number, faults: readonly Fault[] = []): BenchSet {
	const random = createRandom(seed);
	const either = (): number => 2 * random.uniform() - 1;
	const factory = factoryTurns(design);
	const turns = Object.fromEntries(
		Object.entries(design.adjusters).map(([id, law]) => {
			const value = adjusterValue(law, factory[id] ?? 0);
			const share = either();
			if (law.kind === 'slug') return [id, turnsFor(law, value * (1 + share * spread.slugShare))];
			const most = id === design.oscillator.padder ? spread.padderF : spread.trimmerF;
			return [id, turnsFor(law, Math.max(value + share * most, law.leastF))];
		}),
	);
	return { design, faults, turns, pointerSlipM: either() * spread.pointerM };
}
