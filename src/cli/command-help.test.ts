import { execFileSync } from 'node:child_process';
import { mkdtempSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { parseArgs } from 'node:util';
import { describe, expect, test } from 'vitest';
import { commandHelp, overview } from './command-help.ts';
import { optionsOf } from './command-option.ts';
import { commands } from './commands.ts';
import { completionScript } from './completion.ts';
import { runCommandLine } from './main.ts';
import { commandsPage, manualPage } from './manual.ts';

/** What bash offers for the last of the words that were typed. */
function offered(...typed: string[]): string[] {
	const script = join(mkdtempSync(join(tmpdir(), 'peakwright-bash-')), 'completion');
	writeFileSync(script, completionScript('bash', commands));
	const [word = '', before = ''] = typed.toReversed();
	const line = [
		`source ${script}`,
		`COMP_WORDS=(peakwright ${typed.map((text) => `'${text}'`).join(' ')})`,
		`COMP_CWORD=${typed.length}`,
		`_peakwright peakwright '${word}' '${typed.length > 1 ? before : 'peakwright'}'`,
		`printf "%s\\n" "\${COMPREPLY[@]}"`,
	].join('; ');
	return execFileSync('bash', ['-c', line], { encoding: 'utf8' }).split('\n').filter(Boolean);
}

describe('help', () => {
	test('every command has a summary, a usage that names its options, and an example that it can read', () => {
		for (const command of commands) {
			expect(commandHelp(command)).toContain(command.summary);
			expect(command.examples.length, command.name).toBeGreaterThan(0);
			for (const { name, value } of optionsOf(command)) expect(value, `--${name} of ${command.name}`).not.toBe('VALUE');
			for (const example of command.examples) {
				const [, name, rest] = /^(?:npx )?peakwright ([a-z-]+) ?(.*)$/.exec(example) ?? [];
				const meant = commands.find((known) => known.name === name);
				expect(meant, example).toBeDefined();
				const args = [...(rest ?? '').matchAll(/(?:[^\s"']|"[^"]*"|'[^']*')+/g)].map(([word]) =>
					word.replace(/["']/g, ''),
				);
				expect(() => parseArgs({ args, options: meant?.options ?? {}, allowPositionals: true }), example).not.toThrow();
			}
		}
	});

	test('the list has every command on a line of its own', () => {
		for (const { name, summary } of commands)
			expect(overview(commands)).toMatch(new RegExp(`^  ${name} +${summary.slice(0, 20)}`, 'm'));
	});

	test('the version is that of the package', async () => {
		const lines: string[] = [];
		const status = await runCommandLine(['--version'], { line: (text) => lines.push(text), notice: () => {} });
		expect(status).toBe(0);
		expect(lines).toEqual([expect.stringMatching(/^\d+\.\d+\.\d+$/)]);
	});

	test('manual and reference name every command and option', () => {
		const page = commandsPage(commands);
		const manual = manualPage(commands, '1.2.3').replaceAll('\\-', '-');
		for (const command of commands) {
			expect(page).toContain(`\n## ${command.name}\n`);
			expect(manual).toContain(`\n.SS ${command.name}\n`);
			for (const { name } of optionsOf(command)) {
				expect(page).toContain(`| \`--${name}`);
				expect(manual).toContain(`\\fB--${name}`);
			}
		}
	});
});

describe('completion in bash', () => {
	test('commands are completed by their first letters', () => {
		expect(offered('t')).toEqual(['tone', 'track', 'trouble', 'tests']);
	});
	test('options are those of the command, and choices those of the option', () => {
		expect(offered('sheet', '--p')).toEqual(['--pdf', '--paper']);
		expect(offered('sheet', '--paper', '')).toEqual(['A4', 'Letter']);
		expect(offered('rehearse', '--fault', 'winding-o')).toEqual(offered('rehearse', '--fault', 'winding-op'));
	});
	test('the first word of a command with kinds is one of them', () => {
		expect(offered('generator', 'd')).toEqual(['dial', 'depth', 'drift']);
	});
	test('a file name is left to the shell', () => {
		expect(offered('tone', 'recording.w')).toEqual([]);
	});
});

test('a shell that is not known is refused', async () => {
	const said: string[] = [];
	const status = await runCommandLine(['completion', 'tcsh'], { line: () => {}, notice: (text) => said.push(text) });
	expect(status).toBe(2);
	expect(said[0]).toContain('bash, zsh, fish');
});
