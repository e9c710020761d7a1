import { mkdtempSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { tm517 } from '#core/receiver/designs/tm-517.ts';
import { DisturbedSet } from '../../test/disturbed-set.ts';
import { InputFault } from './command.ts';
import { dialCommand } from './dial-command.ts';
import { readArguments } from './read-arguments.ts';

const folder = mkdtempSync(join(tmpdir(), 'dial-'));
const file = (name: string, text: string): string => {
	const path = join(folder, name);
	writeFileSync(path, text);
	return path;
};

function dial(line: readonly string[]): string[] {
	const lines: string[] = [];
	const input = readArguments(line, dialCommand.options);
	void dialCommand.run(input, { line: (text) => lines.push(text), notice: () => undefined });
	return lines;
}
const usual = [
	'--if',
	'455kc',
	'--band',
	'540kc-1620kc',
	'--tracking',
	'600kc,1000kc,1400kc',
	'--reading',
	'0.1mm',
	'--travel',
	'122mm',
];
const sound = { trimmerF: 0, padderShare: 0, coilShare: 0, pointerM: 0, ifOffHz: 0, platesF: [0, 0, 0, 0] } as const;
const marksKc = [550, 650, 800, 1000, 1200, 1400, 1600];
const table = (off: Partial<typeof sound | { trimmerF: number }>): string => {
	const set = new DisturbedSet(tm517, { ...sound, ...off } as ConstructorParameters<typeof DisturbedSet>[1]);
	return ['dial kHz,heard kHz', ...marksKc.map((kc) => `${kc},${(set.heardHz(kc * 1e3) / 1e3).toFixed(1)}`)].join('\n');
};

test('a simulated set whose trimmer is off is read from a file: one object, errors, causes, steps in order', () => {
	const path = file('trimmer.csv', table({ trimmerF: 4e-12 }));
	const [only = '', ...more] = dial([path, ...usual, '--json']);
	expect(more).toEqual([]);
	const answer = JSON.parse(only);
	expect(answer.errors).toHaveLength(7);
	expect(answer.errors[5].dialHz).toBe(1400e3);
	expect(answer.errors[5].errorHz).toBeLessThan(-25e3);
	expect(answer.causes[0].cause).toBe('trimmer');
	expect(answer.causes[0].unit).toBe('pF');
	expect(answer.causes[0].worstIfOnlyThisIsCuredHz).toBeLessThan(8e3);
	expect(answer.steps[0].adjuster).toBe('trimmer');
	expect(marksKc).toContain(answer.steps[0].sitAtDialHz / 1e3);
	expect(answer.predictedWorstHz.uncertainty).toBeGreaterThan(0);
	expect(dial([path, ...usual]).join('\n')).toContain('with the trimmer');
});

test('columns are told apart by their names, whatever their order and unit', () => {
	const first = file('one.csv', 'dial kHz,heard kHz\n600,610\n1400,1380');
	const other = file('two.csv', 'heard Mc;dial kc\n0,610;600\n1,380;1400');
	const errors = (path: string) => JSON.parse(dial([path, ...usual, '--json'])[0] as string).errors;
	expect(errors(other).map(({ errorHz }: { errorHz: number }) => Math.round(errorHz))).toEqual(
		errors(first).map(({ errorHz }: { errorHz: number }) => Math.round(errorHz)),
	);
});

test('what cannot be used is refused with its line and what to give', () => {
	const refused = (text: string, options = usual): string => {
		try {
			dial([file('bad.csv', text), ...options]);
		} catch (error) {
			if (error instanceof InputFault) return error.message;
			throw error;
		}
		return 'not refused';
	};
	expect(refused('dial kHz,heard kHz\n600,600\n1000,1910')).toContain('line 3');
	expect(refused('dial kHz,heard kHz\n600,600')).toContain('two marks');
	expect(refused('dial kHz,heard kHz\n600,abc')).toContain('line 2');
	expect(refused('dial kHz,level dB\n600,1\n700,1')).toContain('two columns of frequency');
	expect(refused('dial kHz,heard kHz\n600,600\n700,700', ['--if', '455kc'])).toContain('--band');
});

test('a generator that reads 1 % low gives the same answer when its checks are given, and the acts say where its dial stands', () => {
	const rows = table({ trimmerF: 4e-12 }).split('\n');
	const low = [
		rows[0],
		...rows.slice(1).map((row) => row.replace(/,(.*)$/, (_, kc) => `,${(Number(kc) * 0.99).toFixed(1)}`)),
	];
	const checks = file('checks.csv', 'dial kc,true kc\n495,500\n990,1000\n1683,1700');
	const answer = (text: string, options: readonly string[]) =>
		JSON.parse(dial([file('read.csv', text), ...usual, ...options, '--json'])[0] as string);
	const [straight, corrected] = [answer(rows.join('\n'), []), answer(low.join('\n'), ['--checks', checks])];
	expect(corrected.errors[5].errorHz / 1e3).toBeCloseTo(straight.errors[5].errorHz / 1e3, 0);
	const [first] = corrected.steps;
	expect(first.generatorDialHz.value / first.bringInHz).toBeCloseTo(0.99, 4);
});

test('places of the marks are taken from the file, and refused when they run back', () => {
	const rows = table({ trimmerF: 4e-12 }).split('\n');
	const withPlaces = (place: (k: number) => number): string =>
		[`${rows[0]},place mm`, ...rows.slice(1).map((row, k) => `${row},${place(k)}`)].join('\n');
	const first = JSON.parse(
		dial([
			file(
				'places.csv',
				withPlaces((k) => 20 * k),
			),
			...usual,
			'--json',
		])[0] as string,
	);
	expect(first.errors).toHaveLength(7);
	expect(() =>
		dial([
			file(
				'back.csv',
				withPlaces((k) => (k === 3 ? 0 : 20 * k)),
			),
			...usual,
		]),
	).toThrow(/places do not run on/);
});

test('a set without a padder is answered with its trimmer and pointer, and a padder is not asked of it', () => {
	const path = file('read.csv', table({ trimmerF: 4e-12 }));
	for (const none of [
		['--cut-plates', 'yes'],
		['--oscillator', 'below'],
	]) {
		const { steps, causes } = JSON.parse(dial([path, ...usual, ...none, '--if', '262kc', '--json'])[0] as string);
		expect(steps.length).toBeGreaterThan(0);
		for (const { adjuster } of steps) expect(['pointer', 'trimmer']).toContain(adjuster);
		expect(causes.map(({ cause }: { cause: string }) => cause)).not.toContain('padder');
		expect(() => dial([path, ...usual, ...none, '--if', '262kc', '--low-end', 'padder'])).toThrow(
			/no padder: give slug/,
		);
	}
});
