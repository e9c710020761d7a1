import { existsSync, mkdtempSync, readFileSync, symlinkSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import { expect, test } from 'vitest';
import { runCommandLine } from '../src/cli/main.ts';

/** Lines of the README's blocks that call the program, each as its words. */
const commands = readFileSync('README.md', 'utf8')
	.split('\n')
	.filter((line) => line.startsWith('npx peakwright'))
	.map((line) => line.split(' ').slice(2));

test('every command of the README runs as printed', async () => {
	expect(commands.length).toBeGreaterThan(10);
	const folder = mkdtempSync(join(tmpdir(), 'peakwright-readme-'));
	symlinkSync(resolve('examples'), join(folder, 'examples'));
	process.env.XDG_DATA_HOME = join(folder, 'data');
	process.chdir(folder);
	for (const words of commands) {
		const said: string[] = [];
		const output = { line: (text: string) => said.push(text), notice: (text: string) => said.push(text) };
		expect(await runCommandLine(words, output), `${words.join(' ')}: ${said.join('\n')}`).toBe(0);
	}
	expect(existsSync('sheet.pdf') && existsSync('everything.json') && existsSync('copy.sqlite')).toBe(true);
}, 120_000);
