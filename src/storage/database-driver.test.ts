import { mkdtempSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { expect, test, vi } from 'vitest';
import { runCommandLine } from '../cli/main.ts';
import { missingDriverWords } from './database-driver.ts';
import { openStore } from './store.ts';

// The package is there, its compiled part is not: as after an install without network and without a compiler.
vi.mock('better-sqlite3', () => ({
	default: class {
		constructor() {
			throw new Error('Could not locate the bindings file. Tried:\n \u2192 /somewhere/better_sqlite3.node');
		}
	},
}));

const folder = () => mkdtempSync(join(tmpdir(), 'peakwright-driver-'));

async function said(...args: string[]): Promise<{ status: number; lines: string[]; notices: string[] }> {
	const lines: string[] = [];
	const notices: string[] = [];
	const status = await runCommandLine(args, { line: (text) => lines.push(text), notice: (text) => notices.push(text) });
	return { status, lines, notices };
}

test('without the compiled part of the database the program says in one line what is missing and what to do', async () => {
	const store = await openStore(folder(), 0);
	expect(store).toMatchObject({
		ok: false,
		words: expect.stringMatching(/^the database .* cannot be loaded for Node v\d/),
	});
	for (const args of [['sets'], ['start', '--no-open']]) {
		const { status, lines, notices } = await said(...args, '--data', folder());
		expect(status).toBe(2);
		expect(lines).toEqual([]);
		expect(notices).toHaveLength(1);
		expect(notices[0]).toMatch(/install again.*compiler, make and Python/);
		expect(notices[0]).toContain('Could not locate the bindings file. It is fetched');
		expect(notices[0]).not.toContain('\u2192');
	}
});

test('commands that keep nothing work without it', async () => {
	const { status, lines } = await said('track', '--if', '455kc', '--band', '540kc-1600kc');
	expect(status).toBe(0);
	expect(lines.length).toBeGreaterThan(5);
});

test('a database made for another Node is told apart by its own words', () => {
	const words = missingDriverWords(
		new Error('was compiled against a different Node.js version\nusing X'),
		'Node v26 on linux x64',
	);
	expect(words).toContain('Node v26 on linux x64: was compiled against a different Node.js version.');
});
