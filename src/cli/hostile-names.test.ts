import { mkdtempSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { runCommandLine } from './main.ts';

const folder = mkdtempSync(join(tmpdir(), 'peakwright-names-'));
/** Clears a terminal, goes on in a second line, turns what follows, and would be an option. */
const names = [
	'\u001b[2J\u001b]0;x\u0007.csv',
	'two\nlines.csv',
	'\u202egpj.csv',
	'--pdf=x.csv',
	"o'brien $(touch x).csv",
	`${'x'.repeat(200)}.csv`,
];

async function said(...args: string[]): Promise<{ status: number; notices: string[] }> {
	const notices: string[] = [];
	const status = await runCommandLine(args, { line: () => {}, notice: (text) => notices.push(text) });
	return { status, notices };
}

test('a file with a hostile name is refused in one line that a terminal does not obey', async () => {
	for (const name of names) {
		const path = join(folder, name);
		writeFileSync(path, 'kHz,dB\n455,\u001b[31m\n');
		for (const given of [path, join(folder, `absent ${name}`)]) {
			const { status, notices } = await said('response', given, '--if', '455kc');
			expect(status, name).toBe(2);
			expect(notices).toHaveLength(1);
			expect(notices[0]).not.toMatch(/[\p{Cc}\u202e]/u);
		}
	}
});

test('a good file is read whatever it is called', async () => {
	for (const name of names) {
		const path = join(folder, name);
		writeFileSync(path, 'dial kc,heard kc\n600,601\n1000,1004\n1400,1409\n');
		expect((await said('dial', path, '--if', '455kc', '--band', '540kc-1600kc')).notices, name).toEqual([]);
	}
});

test('words that a command does not take, and a folder in the place of a file, are refused', async () => {
	for (const args of [
		['import', folder, '--data', folder],
		['import', join(folder, 'a.zip'), join(folder, 'b.zip')],
		['backup', join(folder, 'a.sqlite'), join(folder, 'b.sqlite'), '--data', folder],
		['runs', 'one-set', 'other-set', '--data', folder],
		['start', 'my-set'],
	]) {
		const { status, notices } = await said(...args);
		expect(status, args.join(' ')).toBe(2);
		expect(notices[0], args.join(' ')).toMatch(/^(cannot use|give) /);
	}
});
