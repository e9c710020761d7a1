import { expect, test } from 'vitest';
import { antennaTest } from './antenna-test.ts';
import { peakSide } from './image-side.ts';

/** Output of a single tuned circuit `y` half-widths off its peak. */
const outputDb = (y: number): number => -10 * Math.log10(1 + y * y);
const readAt = (y: number, step: number, readingDb = 0.01) =>
	antennaTest(outputDb(y), outputDb(y + step), outputDb(y - step), readingDb);

// Closed form: y half-widths off loses 10 log (1 + y^2): 0.37, 1.34 and 3.01 dB at 0.3, 0.6 and 1.
test.each([
	[0.3, 0.37],
	[0.6, 1.34],
	[-1, 3.01],
])('a circuit %s half-widths off its peak has %s dB to gain', (y, db) => {
	const found = readAt(y, 1);
	if (found.kind !== 'found') throw new Error(found.kind);
	expect(found.toGainDb.value).toBeCloseTo(db, 2);
	// Detuned upward: less of what tunes upward.
	expect(found.wants).toBe(y > 0 ? 'less' : 'more');
});

test('a peaked circuit wants neither', () => {
	expect(readAt(0, 0.8)).toMatchObject({ kind: 'found', wants: 'neither' });
});

test('a step too small for the distance or for the meter is said to be so', () => {
	expect(readAt(3, 1).kind).toBe('step too small');
	expect(readAt(0.5, 0.1, 0.2).kind).toBe('step too small');
});

// Arithmetic at 18 Mc and 455 kc: right 18,000 and 18,910; on the image 17,090 and 18,000.
test('the peak is told by its two frequencies, and not when only one was heard', () => {
	expect(peakSide(18e6, 455e3, 'above', [18e6, 18.91e6], 20e3)).toBe('signal');
	expect(peakSide(18e6, 455e3, 'above', [17.09e6, 18e6], 20e3)).toBe('image');
	expect(peakSide(18e6, 455e3, 'below', [17.09e6, 18e6], 20e3)).toBe('signal');
	// A dial 300 kc off does not hide which of the two belongs to it; one that lies half way between them does.
	expect(peakSide(18e6, 455e3, 'above', [17.7e6, 18.61e6], 20e3)).toBe('signal');
	expect(peakSide(18e6, 455e3, 'above', [17.55e6, 18.46e6], 20e3)).toBe('unclear');
	expect(peakSide(18e6, 455e3, 'above', [18e6], 20e3)).toBe('unclear');
	expect(peakSide(18e6, 455e3, 'above', [17.09e6, 18e6, 18.91e6], 20e3)).toBe('unclear');
});
