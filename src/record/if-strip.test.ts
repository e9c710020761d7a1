import { expect, test } from 'vitest';
import { ifStripFacts } from './if-strip.ts';
import type { Adjuster } from './set-card.ts';

const screw = (transformer: number, winding: Adjuster['winding']): Adjuster => ({
	id: `if${transformer}-${winding}`,
	name: `T${transformer} ${winding}`,
	stage: 'IF',
	transformer,
	winding,
	kind: 'compression trimmer',
});

test('a transformer has two windings though only one can be turned, and three where the card names a third', () => {
	expect(ifStripFacts({ adjusters: [screw(1, 'primary'), screw(2, 'primary'), screw(2, 'secondary')] })).toMatchObject({
		windingCount: 4,
		isTripleTuned: false,
	});
	const triple = [screw(1, 'primary'), screw(1, 'third'), screw(1, 'secondary'), screw(2, 'primary')];
	expect(ifStripFacts({ adjusters: triple })).toMatchObject({ windingCount: 5, isTripleTuned: true });
	expect(ifStripFacts({})).toMatchObject({ windingCount: 4, shape: 'peaked' });
});

test('an intended shape and a selectivity switch are taken from the card', () => {
	expect(ifStripFacts({ ifCurve: 'staggered' })).toMatchObject({ shape: 'staggered', hasBandwidthSwitch: false });
	expect(ifStripFacts({ ifCurve: 'selectivity switch' })).toMatchObject({ shape: 'peaked', hasBandwidthSwitch: true });
});
