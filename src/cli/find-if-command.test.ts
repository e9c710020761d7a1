import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { scratchFolder } from '../../test/journeys/open-page.ts';
import { InputFault } from './command.ts';
import { findIfCommand } from './find-if-command.ts';
import { readArguments } from './read-arguments.ts';

interface FoundIf {
	readonly asFoundHz: { readonly value: number };
	readonly asDesigned: readonly { readonly ifHz: number; readonly probability: number }[];
}

function findIf(words: readonly string[]): FoundIf {
	const lines: string[] = [];
	const input = readArguments([...words, '--json'], findIfCommand.options);
	void findIfCommand.run(input, { line: (text) => lines.push(text), notice: () => undefined });
	return JSON.parse(lines.join('\n')) as FoundIf;
}

/** A table of marks, each heard so far off. */
function dialFile(offKc: number): string {
	const path = join(scratchFolder(), 'dial.csv');
	const rows = [6000, 10_000, 17_000].map((markKc) => `${markKc},${markKc + offKc}`);
	writeFileSync(path, ['dial kHz,heard kHz', ...rows].join('\n'));
	return path;
}

// [beasley-miller] ex. 3.2, transcription: 620 kc, oscillator 1,075. The same distance below: 9,545 kc at 10,000.
test('a counted oscillator gives the IF from either side of the signal', () => {
	for (const counted of ['1075kc@620kc', '9545kc@10000kc'])
		expect(findIf(['--oscillator', counted]).asFoundHz.value).toBe(455e3);
});

// Closed form: a dial drawn for 465 kc and heard through 455 is 10 kc high with the oscillator above, 10 kc low with it below.
test('the dial speaks for the IF of its maker on the side on which the oscillator was counted, or as is said', () => {
	const share = (words: readonly string[]): number =>
		findIf(words).asDesigned.find(({ ifHz }) => ifHz === 465e3)?.probability ?? 0;
	const below = ['--oscillator', '9545kc@10000kc', '--dial', dialFile(-10)];
	const said = ['--image-pair', '10000kc,9090kc', '--side', 'below', '--dial', dialFile(-10)];
	const above = ['--image-pair', '10000kc,10910kc', '--dial', dialFile(10)];
	for (const words of [below, said, above]) expect(share(words)).toBeGreaterThan(2 * share(words.slice(0, 2)));
	expect(share([...below, '--side', 'above'])).toBeLessThan(share(below) / 10);
});

test('oscillators on both sides of their signals leave it open which one the dial has', () => {
	const both = ['--oscillator', '1075kc@620kc', '--oscillator', '9545kc@10000kc'];
	expect(findIf(both).asFoundHz.value).toBe(455e3);
	expect(() => findIf([...both, '--dial', dialFile(10)])).toThrow(InputFault);
	expect(() => findIf(['--sweep', 'examples/if-curve.csv', '--dial', 'examples/tables/dial-marks.csv'])).not.toThrow();
	expect(() => findIf(['--image-pair', '100kc,9000kc'])).toThrow('check the two frequencies');
});
