import { expect, test } from 'vitest';
import { languageOf, saysSame } from './language.ts';

const british = languageOf('UK', 'kHz');

test('a text that stands ready is said in the words of the trade and in the units that were chosen', () => {
	expect(british.term('Try a known good tube, set off.')).toBe('Try a known good valve, set off.');
	expect(british.term('The winding from antenna to ground is open')).toBe('The winding from aerial to earth is open');
	expect(british.term('20 kc each side, 400 c, 18.91 Mc, \u2212 1 kc')).toBe(
		'20 kHz each side, 400 Hz, 18.91 MHz, \u2212 1 kHz',
	);
	expect(languageOf('UK', 'kc').term('455.1 \u00b1 0.5 kc')).toBe('455.1 \u00b1 0.5 kc/s');
	const american = 'The tube of 455 kc at the antenna, plate to ground.';
	expect(languageOf('US', 'kc').term(american)).toBe(american);
});

test('a name that a person typed stays as it is in a text that holds it', () => {
	const names = ['Antenna (low)', 'Antenna', '$& tube {0}', ''];
	expect(british.term('Antenna trimmer: Antenna (low) moves Antenna too, by 3 kc.', names)).toBe(
		'Antenna trimmer: Antenna (low) moves Antenna too, by 3 kHz.',
	);
	expect(british.term('Turn $& tube {0}, not the tube.', names)).toBe('Turn $& tube {0}, not the valve.');
	expect(british.term('The tube has 2 {1} and 3 {0}.', [''])).toBe('The valve has 2 {1} and 3 {0}.');
	// Makers letter their trimmers: a letter within a word is no name.
	expect(british.term('Antenna trimmer: turn A, then A2, not the tube.', ['A', 't', 'A2'])).toBe(
		'Aerial trimmer: turn A, then A2, not the valve.',
	);
});

test('what was kept in other words and units than today\u2019s is known again', () => {
	const american = 'grid cap of the 6A8 converter, 455 kc';
	for (const kept of ['US', 'UK'] as const)
		for (const today of ['US', 'UK'] as const)
			expect(saysSame(languageOf(kept, 'kc').term(american), languageOf(today, 'm').term(american))).toBe(true);
	expect(saysSame('grid of the tube', 'plate of the tube')).toBe(false);
});
