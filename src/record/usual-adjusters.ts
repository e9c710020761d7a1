import type { Adjuster } from './set-card.ts';

const trimmer = { kind: 'compression trimmer', highVoltage: 'unknown', condition: 'unknown' } as const;
const winding = (transformer: 1 | 2, of: 'primary' | 'secondary'): Adjuster => ({
	...trimmer,
	id: `if${transformer}-${of}`,
	name: `T${transformer} ${of === 'primary' ? 'pri.' : 'sec.'}`,
	stage: 'IF',
	transformer,
	winding: of,
});

/** What a superhet of five tubes and one band usually has to turn (common practice): a beginning for a card, to be held against the chassis. */
export const usualAdjusters: readonly Adjuster[] = [
	winding(2, 'secondary'),
	winding(2, 'primary'),
	winding(1, 'secondary'),
	winding(1, 'primary'),
	{ ...trimmer, id: 'oscillator-trimmer', name: 'Osc. trimmer', stage: 'oscillator', end: 'high' },
	{ ...trimmer, id: 'antenna-trimmer', name: 'Ant. trimmer', stage: 'antenna', end: 'high' },
	{ ...trimmer, id: 'padder', name: 'Padder', stage: 'oscillator', end: 'low', kind: 'padder' },
];
