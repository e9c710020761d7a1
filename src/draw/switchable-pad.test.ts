import { expect, test } from 'vitest';
import { switchablePad } from '#advice/switchable-pad.ts';
import { switchablePadDrawing } from './switchable-pad.ts';

test('the pad shows each section with its resistors, and the load at its end', () => {
	const pad = switchablePad();
	const drawing = switchablePadDrawing(pad);
	for (const words of ['>6 dB<', '>20 dB<', '>36<', '>2 x 150<', '>240<', '>2 x 62<', '>51<', '>generator<', '>dummy<'])
		expect(drawing).toContain(words);
	// Two resistors across and one along in each section, and the load.
	expect(drawing.match(/<rect /g)).toHaveLength(3 * pad.sections.length + 1);
});
