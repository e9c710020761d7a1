import type { SlugLaw } from '#core/circuit/adjuster-law.ts';
import type { SetDesign } from '../design.ts';
import { tm517 } from './tm-517.ts';

/** A core that can be screwed right through its winding: each value is met on either side of the middle. */
const core: SlugLaw = { kind: 'slug', airH: 0.98e-3, rise: 0.3, reachTurns: 5, travelTurns: 16 };

/**
 * Invented sister of the TM-517 with iron cores in its IF transformers instead of trimmers (all figures chosen).
 * Dearer coils: higher Q, looser coupling.
 */
export const tm523: SetDesign = {
	...tm517,
	id: 'tm-523',
	name: 'Thistlemoor TM-523',
	adjusters: {
		...tm517.adjusters,
		'if1-primary': core,
		'if1-secondary': core,
		'if2-primary': core,
		'if2-secondary': core,
	},
	windings: [
		{ adjuster: 'if1-primary', henry: 1.1e-3, fixedF: 111.2e-12, q: 95 },
		{ adjuster: 'if1-secondary', henry: 1.1e-3, fixedF: 111.2e-12, q: 95 },
		{ adjuster: 'if2-primary', henry: 1.1e-3, fixedF: 111.2e-12, q: 90 },
		{ adjuster: 'if2-secondary', henry: 1.1e-3, fixedF: 111.2e-12, q: 90 },
	],
	couplings: [0.0095, 0.0125],
	tubes: { ...tm517.tubes, feedbackF: 0.003e-12 },
};
