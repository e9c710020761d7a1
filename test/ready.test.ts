import { spawnSync } from 'node:child_process';
import { copyFileSync, mkdirSync, mkdtempSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { delimiter, join } from 'node:path';
import { expect, test } from 'vitest';

/** A clone whose npm leaves the compiled parts out, as where they can be neither fetched nor compiled; a part that is given opens. */
function cloneWithout(given: Readonly<Record<string, string>>): string {
	const clone = mkdtempSync(join(tmpdir(), 'peakwright-ready-'));
	for (const folder of ['src', 'tools', 'bin', 'node_modules']) mkdirSync(join(clone, folder));
	for (const file of ['package.json', 'package-lock.json', 'tools/ready.mjs']) copyFileSync(file, join(clone, file));
	writeFileSync(join(clone, 'bin', 'npm'), '#!/bin/sh\nexit 0\n', { mode: 0o755 });
	for (const [name, text] of Object.entries(given)) {
		mkdirSync(join(clone, 'node_modules', name));
		writeFileSync(join(clone, 'node_modules', name, 'index.js'), text);
	}
	return clone;
}

function ready(clone: string): { readonly status: number | null; readonly said: string } {
	const { status, stderr } = spawnSync(process.execPath, ['tools/ready.mjs', '--packages'], {
		cwd: clone,
		encoding: 'utf8',
		env: { ...process.env, PATH: join(clone, 'bin') + delimiter + process.env.PATH },
	});
	return { status, said: stderr };
}

test('a database that npm could not bring is said before the check, with what to do', () => {
	const clone = cloneWithout({ serialport: '' });
	for (const time of ['first', 'again']) {
		const { status, said } = ready(clone);
		expect(status, time).toBe(1);
		expect(said).toContain('better-sqlite3 is missing or does not open: without it the program keeps nothing');
		expect(said).not.toContain('serialport');
		expect(said).toMatch(/apt-get install build-essential python3.*npm ci/);
		expect(said).toContain('check and tests need every part and were not begun');
	}
});

test('with every part there nothing is said of parts', () => {
	const { status, said } = ready(
		cloneWithout({ serialport: '', 'better-sqlite3': 'module.exports = class { close() {} };' }),
	);
	expect({ status, said }).toEqual({ status: 0, said: 'Fetching packages (once; a minute or two) ...\n' });
});
