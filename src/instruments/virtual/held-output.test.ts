import { expect, test } from 'vitest';
import { designs } from '#core/receiver/designs/designs.ts';
import { ifCurve } from '#core/receiver/if-curve.ts';
import { standardTone } from '#core/receiver/signal.ts';
import { tamperedSet } from '#core/receiver/truth.ts';
import { heldGeneratorLevel } from './held-output.ts';
import { VirtualSet } from './virtual-set.ts';

// The set's own weak-signal curve, solved from its circuits, is the truth; AVC and the detector's knee bend what the meter shows by many decibels.
test('the generator held for one reading draws the IF curve, whatever AVC does', () => {
	const design = designs['tm-517'];
	if (!design) throw new Error('missing design: tm-517');
	for (const seed of [1, 2, 3, 4]) {
		const set = new VirtualSet(tamperedSet(design, seed), seed, null);
		const truth = ifCurve({ ...tamperedSet(design, seed), turns: set.state.turns });
		const read = (frequencyHz: number): number => {
			set.place({ frequencyHz, ...standardTone, into: 'converter grid' }, design.band.lowHz * 1.05);
			return -(heldGeneratorLevel(set, 0)?.levelDb?.value ?? Number.NaN);
		};
		const top = read(truth.peakHz);
		for (const offsetHz of [-6e3, -3e3, 3e3, 6e3]) {
			const frequencyHz = truth.peakHz + offsetHz;
			// AVC and the diode load the strip a little otherwise than a weak signal does.
			expect(Math.abs(read(frequencyHz) - top - truth.levelDb(frequencyHz))).toBeLessThan(1);
		}
	}
});
