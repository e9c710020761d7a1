import { mkdtempSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { parseArgs } from 'node:util';
import { expect, test } from 'vitest';
import { tm517 } from '#core/receiver/designs/tm-517.ts';
import { DisturbedSet } from '../../test/disturbed-set.ts';
import { InputFault } from './command.ts';
import { dialCommand } from './dial-command.ts';

const folder = mkdtempSync(join(tmpdir(), 'dial-'));
const file = (name: string, text: string): string => {
	const path = join(folder, name);
	writeFileSync(path, text);
	return path;
};

function dial(line: readonly string[]): string[] {
	const lines: string[] = [];
	const input = parseArgs({ args: [...line], options: dialCommand.options, allowPositionals: true });
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
