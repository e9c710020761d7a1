import { execFileSync } from 'node:child_process';
import { existsSync, mkdtempSync, readFileSync, symlinkSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import { expect, test } from 'vitest';

test('the package that is given away runs from an empty folder, without the source and without the tools', () => {
	const folder = mkdtempSync(join(tmpdir(), 'peakwright-package-'));
	const packed = execFileSync('npm', ['pack', '--ignore-scripts', '--json', '--pack-destination', folder], {
		encoding: 'utf8',
		shell: process.platform === 'win32',
		stdio: ['ignore', 'pipe', 'ignore'],
	});
	const [{ filename, files }] = JSON.parse(packed) as [{ filename: string; files: { path: string }[] }];
	const paths = files.map(({ path }) => path);
	for (const wanted of [
		'bin/peakwright.mjs',
		'dist/cli.mjs',
		'dist/page/index.html',
		'docs/peakwright.1',
		'examples/thistlemoor-tm-517.json',
		'LICENSE',
	])
		expect(paths).toContain(wanted);
	expect(paths.filter((path) => /^(src|test)\/|\.test\.|^tools\/(?!ready\.mjs)/.test(path))).toEqual([]);

	execFileSync('tar', ['xzf', join(folder, filename), '-C', folder]);
	// What the package depends on is taken from here; that it can be fetched is the registry's affair.
	symlinkSync(resolve('node_modules'), join(folder, 'node_modules'), 'dir');
	const run = (...args: string[]): string =>
		execFileSync(process.execPath, [join(folder, 'package/bin/peakwright.mjs'), ...args], {
			cwd: folder,
			encoding: 'utf8',
			stdio: ['ignore', 'pipe', 'ignore'],
		});
	const { version } = JSON.parse(readFileSync('package.json', 'utf8')) as { version: string };
	expect(run('--version')).toBe(`${version}\n`);
	expect(run('track', '--if', '455kc', '--band', '540kc-1600kc')).toContain('Padder');
	run('sheet', 'package/examples/thistlemoor-tm-517.json', '--pdf', 'sheet.pdf');
	expect(readFileSync(join(folder, 'sheet.pdf'), 'latin1').startsWith('%PDF-')).toBe(true);
	run('sets', '--data', 'data');
	expect(existsSync(join(folder, 'data', 'peakwright.sqlite'))).toBe(true);
});
