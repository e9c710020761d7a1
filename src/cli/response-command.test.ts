import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { parseArgs } from 'node:util';
import { afterAll, beforeAll, expect, test } from 'vitest';
import type { ResponseAnswer } from '#advice/response/response-answer.ts';
import { InputFault } from './command.ts';
import { responseCommand } from './response-command.ts';

let folder: string;
beforeAll(() => {
	folder = mkdtempSync(join(tmpdir(), 'response-'));
});
afterAll(() => rmSync(folder, { recursive: true }));

function run(words: readonly string[]): string[] {
	const lines: string[] = [];
	const input = parseArgs({ args: [...words], options: responseCommand.options, allowPositionals: true });
	void responseCommand.run(input, { line: (text) => lines.push(text), notice: () => undefined });
	return lines;
}
const answered = (...words: string[]) => JSON.parse(run([...words, '--json']).join('\n')) as ResponseAnswer;

let count = 0;
function written(text: string): string {
	count++;
	const path = join(folder, `sweep-${count}.csv`);
	writeFileSync(path, text);
	return path;
}

const base = 'examples/if-curve.csv';
const nudges = [
	'--nudge',
	'T1-primary=examples/if-curve-after-t1-primary.csv',
	'--nudge',
	'T2-secondary=examples/if-curve-after-t2-secondary.csv',
];

// The example was drawn from a strip whose circuits, after both nudges, are at 456.3, 455.9, 458.4 and 452.0 kc; invented.
test('the example names the adjusters, their ways, and the partners without a way', () => {
	const { adjusters, refused, advice } = answered(base, '--if', '455kc', '--meter', '0.1dB', ...nudges);
	expect(refused).toBeUndefined();
	expect(adjusters.map(({ name }) => name)).toEqual([
		'T1-primary',
		'T2-secondary',
		'partner of T1-primary',
		'partner of T2-secondary',
	]);
	for (const [place, truthHz] of [456.3e3, 452e3, 455.9e3, 458.4e3].entries()) {
		const { frequencyHz, offHz } = adjusters[place] as (typeof adjusters)[number];
		expect(Math.abs(frequencyHz.value - truthHz)).toBeLessThan(4 * (frequencyHz.uncertainty ?? 0));
		expect(offHz).toBeCloseTo(frequencyHz.value - 455e3, 6);
	}
	expect(adjusters.map(({ direction }) => direction)).toEqual(['opposite', 'opposite', undefined, undefined]);
	expect(advice.at(-1)?.words).toContain('proof');
});

test('a person is told in lines what a program is told in keys', () => {
	const lines = run([base, '--if', '455kc', ...nudges]).join('\n');
	for (const words of ['peak', '6 dB width', 'T1-primary', 'turn back', 'Set the generator to'])
		expect(lines).toContain(words);
});

test('a single circuit in a Touchstone file is read, and its width is that of its Q', () => {
	// |A| = 1 / sqrt(1 + 4 a^2): Q 50 at 455 kc is 9.1 kc wide at 3.01 dB.
	const rows = Array.from({ length: 41 }, (_, index) => {
		const frequencyHz = 435e3 + 1000 * index;
		const a = (50 * (frequencyHz - 455e3)) / 455e3;
		return `${frequencyHz} ${-10 * Math.log10(1 + 4 * a * a)} 0`;
	});
	const path = join(folder, 'one.s1p');
	writeFileSync(path, `# Hz S DB R 50\n${rows.join('\n')}\n`);
	const width3 = answered(path, '--if', '455kc', '--tone', 'none', '--meter', '0.05dB', '--parameter', 'S11')
		.bandwidths[0];
	expect(Math.abs((width3?.widthHz.value ?? 0) - 9.08e3)).toBeLessThan(150);
});

test('what cannot be used is refused with file, line and what to give', () => {
	const faults: readonly (readonly [string[], RegExp])[] = [
		[[], /give one base sweep/],
		[[base], /--if is missing/],
		[[base, '--if', '455'], /--if: cannot read a frequency from "455"/],
		[['none.csv', '--if', '455kc'], /cannot open none\.csv/],
		[[written('kHz,dB\n450,-3\n451,x\n'), '--if', '455kc'], /sweep-\d\.csv: line 3, column 2/],
		[[written('kHz,V\n450,1\n451,0\n'), '--if', '455kc'], /line 3: 0 has no level/],
		[[written('kHz,dB\n450,-3\n451,-2\n452,-1\n'), '--if', '455kc'], /3 points/],
		[[written('MHz,dB\n450,-3\n451,-2\n452,-1\n453,-1\n454,0\n'), '--if', '455kc'], /far from the IF/],
		[[base, '--if', '455kc', '--nudge', 'T1'], /--nudge: cannot read "T1"/],
		[[base, '--if', '455kc', '--aim', 'pretty'], /--aim/],
		[[base, '--if', '455kc', '--meter', '0dB'], /--meter/],
	];
	for (const [words, fault] of faults) {
		expect(() => run(words)).toThrow(InputFault);
		expect(() => run(words)).toThrow(fault);
	}
});

test('a weaker second sweep shows AVC', () => {
	const curve = (byDb: number) =>
		Array.from({ length: 31 }, (_, index) => {
			const offsetHz = -15e3 + 1000 * index;
			const inputDb = byDb - 20 * Math.log10(1 + (offsetHz / 4e3) ** 2);
			// AVC that turns decibels above -20 dB into half as many.
			const readDb = inputDb > -20 ? -20 + (inputDb + 20) / 2 : inputDb;
			return `${(455e3 + offsetHz) / 1e3},${readDb.toFixed(2)}`;
		}).join('\n');
	const path = written(`kHz,dB\n${curve(0)}\n`);
	const second = join(folder, 'second.csv');
	writeFileSync(second, `kHz,dB\n${curve(-6)}\n`);
	const { compression, findings } = answered(path, '--if', '455kc', '--meter', '0.05dB', '--second-level', second);
	expect(compression?.of6Db).toBeCloseTo(3, 1);
	expect(findings.map(({ kind }) => kind)).toContain('signal too strong');
});
