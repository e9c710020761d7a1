import { expect, test } from 'vitest';
import type { SetDesign } from '#core/receiver/design.ts';
import { designs } from '#core/receiver/designs/designs.ts';
import { setAsFound } from './practice.ts';

const design = designs['tm-517'] as SetDesign;

test('a practice with a fault or a lesson that is not known is refused in words, never worked without it', () => {
	const found = (practice: { lesson?: string; seed: number; faults: string[] }) => () =>
		setAsFound(design, 'any', { practice, lesson: null });
	expect(found({ seed: 3, faults: ['weak-if-tube', 'tin-whisker'] })).toThrow(
		'This practice has the fault "tin-whisker", which this version of Peakwright does not know',
	);
	expect(found({ seed: 3, faults: ['constructor'] })).toThrow('"constructor"');
	expect(found({ lesson: 'of-tomorrow', seed: 0, faults: [] })).toThrow('the lesson "of-tomorrow"');
	expect(found({ seed: 3, faults: ['weak-if-tube'] })().faults).toEqual([{ kind: 'weak IF tube', share: 0.4 }]);
});
