import { expect, test } from 'vitest';
import { bodyEndDot, colourOf, leadCode, micaSixDots, micaThreeDots } from './colour-code.ts';

// Popular Electronics, August 1956, seen: green body, grey end, red dot is 5,800 ohms; no tolerance colour is 20 % [rma-resistors].
test('a published body-end-dot resistor is read', () => {
	expect(bodyEndDot('green', 'grey', 'red', 'none')).toMatchObject({ value: 5800, toleranceShare: 0.2 });
	expect(bodyEndDot('green', 'grey', 'red', 'silver')?.toleranceShare).toBe(0.1);
	expect(bodyEndDot('gold', 'grey', 'red', 'none')).toBeNull();
});

// [mica-dots], seen: red, green, black is 25 mmf at 500 V and 20 %.
test('a published three-dot mica is read', () => {
	const mica = micaThreeDots('red', 'green', 'black');
	expect((mica?.value ?? 0) * 1e12).toBeCloseTo(25, 9);
	expect(mica).toMatchObject({ toleranceShare: 0.2, notes: ['500 V DC'] });
});

// Ordnance course OD1647 p. 111, seen: white, brown, red and a red multiplier is a mica of 1,200 mmf [mica-dots]. Its tolerance (blue, 2 %) contradicts other texts and is not read.
test('a published six-dot mica is read, and a colour that texts disagree on is not guessed', () => {
	const mica = micaSixDots(['white', 'brown', 'red'], ['brown', 'blue', 'red']);
	expect((mica?.value ?? 0) * 1e12).toBeCloseTo(1200, 9);
	expect(mica?.toleranceShare).toBeNull();
	expect(mica?.notes.join()).toMatch(/mica.*class B, ±500.*measure/);
	// A list member's capacitor read from the handbook, seen [mica-dots]: black, green, brown over red, yellow, black is 51 mmf, class C.
	const stamp = micaSixDots(['black', 'green', 'brown'], ['red', 'yellow', 'black']);
	expect((stamp?.value ?? 0) * 1e12).toBeCloseTo(51, 9);
	expect(stamp?.notes.join()).toContain('class C');
});

// [rfcafe-leads] and [liquisearch-leads], seen.
test('the leads of an IF transformer are plate blue, B-plus red, grid green, AVC black', () => {
	expect(leadCode('IF')).toMatchObject({
		blue: 'plate',
		red: 'B-plus',
		green: 'grid or diode',
		black: 'AVC or ground',
	});
	expect(colourOf('Gray')).toBe('grey');
	expect(colourOf('mauve')).toBeNull();
});
