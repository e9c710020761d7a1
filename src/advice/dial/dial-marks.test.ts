import { expect, test } from 'vitest';
import { DialScale } from '#core/estimate/dial-scale.ts';
import type { SetCard } from '#record/set-card.ts';
import type { SetFacts } from '#record/set-facts.ts';
import { exampleCard, factsOf } from '../../../test/example-set.ts';
import { dialBands } from './dial-bands.ts';
import { dialGround, measuredScale, usualGear } from './dial-marks.ts';

const band = { lowHz: 540e3, highHz: 1600e3 };
const kc = [540, 600, 700, 800, 1000, 1200, 1400, 1600];
// A scale that is straight in frequency, 10 kc to the millimetre, is none that a law between capacitance and wavelength foretells.
const straightMm = kc.map((one) => (one - 540) / 10);

const factsWith = (change: Partial<SetCard>): SetFacts => factsOf({ ...exampleCard(), ...change });

test('a measured scale is taken as it was measured, from any point and from either end', () => {
	for (const way of [1, -1]) {
		const marks = kc.map((one, k) => ({ dialHz: one * 1e3, atM: (12 + way * (straightMm[k] as number)) / 1e3 }));
		const scale = measuredScale(band, marks);
		expect(scale.travelM).toBeCloseTo(0.106, 9);
		expect(scale.marks[0]?.atM).toBeCloseTo(0, 9);
		const drawn = new DialScale(band, scale.travelM, scale.marks);
		// By arithmetic 1,400 stands 86 mm from the low end, and runs 10 kc to the millimetre; between marks the law bends a little.
		expect(drawn.placeM(1400e3)).toBeCloseTo(0.086, 9);
		expect(drawn.slopeHzPerM(1300e3) / 1e7).toBeCloseTo(1, 1);
	}
});

test('places on the card rule the dial; without them the travel does', () => {
	const scales = [
		{
			band: 'broadcast',
			shape: 'arc' as const,
			marks: kc.map((one) => `${one} kc`),
			places: straightMm.map((mm) => `${mm} mm`),
		},
	];
	const facts = factsWith({ scales });
	const [first] = facts.bands;
	if (!first) throw new Error('no band');
	const ground = dialGround(facts, first, usualGear);
	expect(ground?.marks).toHaveLength(8);
	// The band goes on to 1,620 kc, 108 mm from its low end; beyond the last mark the law bends a little.
	expect(ground?.travelM).toBeCloseTo(0.108, 3);
	const plain = factsWith({ scales: [{ band: 'broadcast', travel: '150 mm' }] });
	expect(dialGround(plain, first, usualGear)?.marks).toBeUndefined();
});

test('bands come in the order of the work, and say what they share', () => {
	const facts = factsWith({
		bands: [
			{
				id: 'short',
				name: 'short wave',
				low: '5.8 Mc',
				high: '18 Mc',
				oscillator: 'above',
				lowEnd: 'none',
				after: ['medium'],
			},
			{ id: 'medium', name: 'broadcast', low: '540 kc', high: '1600 kc', lowEnd: 'padder' },
		],
		scales: [],
		adjusters: [
			{ id: 'c1', name: 'C1', stage: 'oscillator', end: 'high', kind: 'air trimmer' },
			{ id: 'c2', name: 'C2', stage: 'oscillator', end: 'low', kind: 'padder', bands: ['medium'] },
		],
	});
	const [medium, short] = dialBands(facts);
	expect(medium?.band.id).toBe('medium');
	expect(medium?.adjusters.map(({ id }) => id)).toEqual(['c1', 'c2']);
	expect(short?.adjusters.map(({ id }) => id)).toEqual(['c1']);
	const said = short?.remarks.join(' ') ?? '';
	expect(said).toContain('Do broadcast first');
	expect(said).toContain('C1 moves broadcast too');
	// With the oscillator above, the right peak of its trimmer has less capacitance since 1 / (LC) is greater.
	expect(said).toContain('less capacitance');
	expect(medium?.remarks.join(' ')).not.toContain('image');
	const ground = short && dialGround(facts, short.band, usualGear);
	expect(ground?.isPointerShared).toBe(true);
});
