import { expect, test } from 'vitest';
import { exampleCard, factsOf, sheetOf } from '../../test/example-set.ts';
import { chassisPlan } from './chassis-plan.ts';
import { hookUpDrawing } from './hook-up.ts';
import { dampedDegrees, needleDegrees, needleScale, pointerPath, tracePath } from './needle.ts';
import { waveformPath } from './waveform.ts';

const demo = exampleCard();

test('every adjuster stands on the plan once, with its number, and only the one in hand is filled', () => {
	const plan = chassisPlan(demo, 'padder');
	for (const [index, { id }] of (demo.adjusters ?? []).entries()) {
		const tags = plan.match(new RegExp(`data-adjuster="${id}".*?</g>`, 'g')) ?? [];
		expect(tags).toHaveLength(1);
		expect(tags[0]).toContain(`>${index + 1}</text>`);
	}
	expect(plan.match(/class="tag[^"]* active"/g)).toHaveLength(1);
});

test('an adjuster without a place is drawn beside the chassis and that is said', () => {
	const plan = chassisPlan({ ...demo, adjusters: [{ id: 'a', name: 'a', stage: 'other', kind: 'other' }] }, null);
	expect(plan).toContain('place not on the card');
});

test('a hostile name stays text', () => {
	const plan = chassisPlan(
		{ ...demo, adjusters: [{ id: 'a', name: '<script>"&', stage: 'other', kind: 'other' }] },
		null,
	);
	expect(plan).not.toContain('<script>');
	expect(plan).toContain('&lt;script&gt;&quot;&amp;');
});

test('the hook-up names point, dummy and ground, and shows isolation where it is needed', () => {
	const { steps } = sheetOf(factsOf(demo));
	const step = steps.find(({ id }) => id === 'wave-trap');
	if (!step) throw new Error('missing step');
	const drawing = hookUpDrawing(step, true) ?? '';
	for (const words of ['antenna terminal', '200 mmf', 'B-minus', 'isolation']) expect(drawing).toContain(words);
	expect(hookUpDrawing(step, false)).not.toContain('isolation');
});

test('the pointer rises to the right as the level nears the best', () => {
	const degrees = [20, 10, 6, 3, 1, 0, -1].map(needleDegrees);
	expect(degrees).toEqual([...degrees].sort((a, b) => a - b));
	expect(needleDegrees(0)).toBeGreaterThan(0);
	expect(needleDegrees(400)).toBe(needleDegrees(20));
	// The mark at the best is the pointer's own place at 0 dB, drawn shorter.
	const end = /L([\d.]+) ([\d.]+)/.exec(pointerPath(needleDegrees(0)));
	expect(Number(end?.[1])).toBeGreaterThan(320);
	expect(needleScale()).toContain('class="pencil"');
});

test('the pointer is damped as a moving-coil instrument is, and its trace forgets after ten seconds', () => {
	// Closed form: after one time constant 1/e of the way is left.
	expect(dampedDegrees(-30, 20, 0.15, 0.15)).toBeCloseTo(20 - 50 / Math.E, 9);
	expect(dampedDegrees(-30, 20, 0.15, 0)).toBe(20);
	const points = [0, 5, 9.9, 10.1, 60].map((agoS) => ({ agoS, degrees: 10 }));
	expect(tracePath(points).split('L')).toHaveLength(3);
	expect(tracePath(points.slice(0, 1))).toBe('');
});

test('a wave fills its picture from left to right', () => {
	expect(waveformPath([0, 1, 0, -1, 0])).toBe('M0 55 L80 3 L160 55 L240 107 L320 55');
});
