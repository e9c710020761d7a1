import { expect, test } from 'vitest';
import { languageOf } from '#record/language.ts';
import { commands } from './commands.ts';
import { runCommandLine } from './main.ts';

async function told(status: 0 | 2, args: readonly string[]): Promise<readonly string[]> {
	const lines: string[] = [];
	const line = (text: string): void => void lines.push(...text.split('\n'));
	expect(await runCommandLine(args, { line, notice: line }), lines.join('\n')).toBe(status);
	return lines;
}

const said = (...args: readonly string[]) => told(0, args);
const refused = async (...args: readonly string[]) => (await told(2, args)).join('\n');

const british = languageOf('UK', 'kHz');
/** American words and kilocycles, whatever the language's own table says of them. */
const american = /\b(?:kc|Mc|c|[Tt]ubes?|[Aa]ntennas?|[Pp]late|grounded|B-plus|[Vv]oice coil)\b/;

/** Every command whose words and units are chosen, with what it is asked. */
const asked = (): readonly (readonly string[])[] => {
	const curve = (after = ''): string => `examples/if-curve${after}.csv`;
	const table = (name: string): string => `examples/tables/${name}.csv`;
	const set = 'examples/thistlemoor-tm-517.json';
	const band = ['--if', '455kc', '--band', '540kc-1600kc'];
	const nudges = ['primary', 'secondary'].map((side, at) => `T${at + 1}-${side}=${curve(`-after-t${at + 1}-${side}`)}`);
	return [
		['dial', table('dial-marks'), ...band],
		['dial', table('dial-marks'), ...band, '--checks', table('generator-dial')],
		['response', curve(), '--if', '455kc'],
		['response', curve(), '--if', '455kc', ...nudges.flatMap((nudge) => ['--nudge', nudge])],
		['track', ...band],
		['track', ...band, '--points', '600kc,1500kc', '--form', 'padder'],
		['track', ...band, '--cut-plates', '140mmf'],
		['generator', 'dial', table('generator-dial'), '--at', '455kc'],
		['generator', 'dial', table('generator-dial'), '--at', '4Mc'],
		['generator', 'drift', table('warm-up')],
		['generator', 'steps', table('attenuator-steps')],
		['generator', 'leak', '--known', '100uV', '--reads=-20dB', '--off=-48dB'],
		['generator', 'depth', '--crest', '5.9V', '--trough', '1.2V'],
		...(commands.find(({ name }) => name === 'part')?.examples ?? []).map((example) =>
			example.replace('npx peakwright ', '').split(' '),
		),
		['trouble'],
		['trouble', '--symptom', 'weak', '--answer', 'three-points=alike', '--answer', 'converter-grid=weak'],
		['trouble', '--symptom', 'hum'],
		['tone', 'examples/tone-400c.wav', '--frames', '0.5s'],
		['find-if', '--image-pair', '1000kc,1910kc', '--oscillator', '1461kc@1000kc', '--year', '1936'],
		['find-if', '--whistle', '910kc'],
		['avc', table('avc-steps'), '--reading=-12dB', '--reading=40dB'],
		['sheet', set],
		['sheet', set, '--generator', 'none', '--attenuator', 'coarse', '--low-end', 'greatest output'],
		['tests', set],
		['tests', set, '--virtual', '--generator', 'unknown', '--distortion'],
		['tests', set, '--readings', 'examples/tables/readings.txt'],
		['rehearse', '--seed', '3'],
		['whistles', ...band, '--stations', table('stations'), '--all', 'yes'],
	];
};

test('with British words and kilohertz chosen no command of the terminal speaks otherwise', async () => {
	const otherwise: string[] = [];
	for (const args of asked()) {
		const lines = await said(...args, '--words', 'UK', '--units', 'kHz');
		expect(lines.length).toBeGreaterThan(0);
		// What is typed at the next command, `--answer b-plus-ac=low`, has the command's own names.
		const own = lines.map((line) => line.replace(/--answer \S+/, ''));
		otherwise.push(...own.filter((line) => american.test(line) || british.term(line) !== line));
	}
	expect(otherwise).toEqual([]);
});

/** Commands that print neither a frequency nor a word of the trade of their own, and what they print. */
const unspoken: Readonly<Record<string, string>> = {
	start: 'an address',
	virtual: 'an address',
	instrument: 'what the instrument says, and lines of its description',
	sets: 'names on cards',
	runs: 'names and days',
	photo: 'what a person said of a photograph',
	export: 'a place and a count',
	import: 'counts',
	backup: 'a place',
	completion: 'a script for the shell',
};

test('every command takes words and units, but those that print neither', () => {
	const without = commands.filter(({ options }) => !('words' in options && 'units' in options));
	expect(without.map(({ name }) => name).sort()).toEqual(Object.keys(unspoken).sort());
});

test('columns stand under each other in British words as in American', async () => {
	const lines = await said('track', '--if', '455kc', '--band', '540kc-1600kc', '--words', 'UK');
	expect(lines.slice(0, 2).map((line) => line.search(/\d/))).toEqual([11, 11]);
	expect(lines[0]).toMatch(/^Aerial /);
});

test('wavelengths stand beside the places of the dial, and a choice that there is not is refused', async () => {
	const lines = await said('track', '--if', '455kc', '--band', '540kc-1600kc', '--units', 'm');
	expect(lines.join('\n')).toContain('1,600 kHz (188 m)');
	expect(await refused('trouble', '--words', 'FR')).toBe('--words: cannot use "FR": give US or UK');
});

test('what is refused is said in the words and units that were chosen, what was typed as it was typed', async () => {
	const curve = ['response', 'examples/if-curve.csv', '--if'];
	const chosen = ['--words', 'UK', '--units', 'kHz'];
	expect(await refused(...curve, '455kc', '--aim', '1kc', ...chosen)).toBe(
		'--aim: give on-if, symmetrical, or a width at 6 dB from 2 kHz to 40 kHz',
	);
	expect(await refused(...curve, '455 tubes', ...chosen)).toBe(
		'--if: cannot read a frequency from "455 tubes": give a number and c, kc, kHz, Mc, MHz or metres, such as 455 kHz',
	);
	expect(await refused(...curve, '455 tubes', '--words', 'UK')).toContain('such as 455 kc/s');
	expect(await refused('part', 'tube', ...chosen)).toContain('no part "tube"');
	expect(await refused('dial', 'plate.csv', '--if', '455kc', '--band', '540kc-1600kc', ...chosen)).toContain(
		'cannot open plate.csv: there is no such file',
	);
});
