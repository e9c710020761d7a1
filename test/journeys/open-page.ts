import { type ChildProcess, spawn } from 'node:child_process';
import { mkdtempSync, readFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { type BrowserContext, chromium, type Page } from 'playwright-core';
import type { RunEntry } from '../../src/record/run.ts';

/** A program under test: the built one, as `npm start` runs it. */
export interface RunningProgram {
	readonly address: string;
	/** Number of its process. */
	readonly process: number;
	/** Ends it at once, as a power cut would (SIGKILL), or as asked (SIGTERM). */
	end(signal: 'SIGKILL' | 'SIGTERM'): Promise<void>;
}

/** A new empty folder for one test. */
export function scratchFolder(): string {
	return mkdtempSync(join(tmpdir(), 'peakwright-'));
}

/** Starts the built program on a data folder; fulfilled when it says where it listens. */
export function startProgram(data: string, port = 0): Promise<RunningProgram> {
	const child: ChildProcess = spawn(
		process.execPath,
		['dist/cli.mjs', 'start', '--no-open', '--data', data, '--port', String(port)],
		{ stdio: ['ignore', 'pipe', 'pipe'] },
	);
	const gone = new Promise<void>((resolve) => child.once('exit', () => resolve()));
	return new Promise((resolve, reject) => {
		let said = '';
		const hear = (chunk: Buffer): void => {
			said += chunk.toString();
			const address = /http:\/\/127\.0\.0\.1:\d+/.exec(said)?.[0];
			if (address === undefined) return;
			resolve({
				address,
				process: child.pid ?? 0,
				end: async (signal) => {
					child.kill(signal);
					await gone;
				},
			});
		};
		child.stdout?.on('data', hear);
		child.stderr?.on('data', hear);
		child.once('exit', (status) => reject(new Error(`the program ended with ${status} and said: ${said}`)));
	});
}

/** Chromium as a person has it, without windows; `profile` keeps what the page stored between two openings. */
export function openBrowser(profile: string, args: readonly string[] = []): Promise<BrowserContext> {
	return chromium.launchPersistentContext(profile, {
		executablePath: process.env.CHROMIUM ?? '/usr/bin/chromium',
		headless: true,
		viewport: { width: 1280, height: 800 },
		args: [
			'--no-sandbox',
			'--disable-gpu',
			'--disable-quic',
			'--no-first-run',
			'--disable-background-networking',
			'--disable-component-update',
			'--disable-sync',
			...args,
		],
	});
}

/** Program and page together on fresh data; fails the test on any error that the page throws. */
export async function openPage(): Promise<{
	page: Page;
	program: RunningProgram;
	faults: string[];
	close(): Promise<void>;
}> {
	const program = await startProgram(scratchFolder());
	const browser = await openBrowser(scratchFolder());
	const page = browser.pages()[0] ?? (await browser.newPage());
	const faults: string[] = [];
	page.on('pageerror', (error) => faults.push(error.message));
	page.on('console', (message) => {
		if (message.type() === 'error') faults.push(message.text());
	});
	await page.goto(program.address);
	return {
		page,
		program,
		faults,
		close: async () => {
			await browser.close();
			await program.end('SIGTERM');
		},
	};
}

/** Waits after a change of address until the screen before is gone, the new one has its heading, and shows the same for three frames in a row. */
export async function settled(page: Page): Promise<void> {
	const frames = (wanted: number): Promise<void> =>
		page.evaluate(async (count) => {
			for (let before = '', same = 0; same < count; before = document.body.innerHTML) {
				await new Promise(requestAnimationFrame);
				same = document.body.innerHTML === before ? same + 1 : 0;
			}
		}, wanted);
	await frames(1);
	await page.getByRole('heading', { level: 1 }).first().waitFor();
	await frames(3);
}

/** Gives the next run its name, by which its virtual set is tampered with. Call it on the page where the run is begun. */
export async function nameNextRun(page: Page, run: string): Promise<void> {
	await page.evaluate((name) => {
		const own = crypto.randomUUID.bind(crypto);
		crypto.randomUUID = () => {
			crypto.randomUUID = own;
			return name as ReturnType<typeof own>;
		};
	}, run);
}

/** Answers every gate that stands in the way, as a careful person would. */
export async function passGates(page: Page): Promise<void> {
	while (await page.getByRole('button', { name: 'Go on', exact: true }).isVisible()) {
		const title = await page.getByRole('heading', { level: 1 }).textContent();
		for (const field of await page.getByPlaceholder('0.2 V').all()) await field.fill('0.3 V');
		for (const box of await page.getByRole('checkbox').all()) await box.check();
		await page.getByRole('button', { name: 'Go on', exact: true }).click();
		await page.waitForFunction((before) => document.querySelector('h1')?.textContent !== before, title);
	}
}

/** Answers the questions of triage as for a sound set that was tampered with. */
export async function answerTriage(page: Page): Promise<void> {
	await page.getByLabel('B-plus at the filter output').fill('95 V');
	for (const question of await page.locator('.question select').all()) await question.selectOption('yes');
	await page.getByLabel('Screws as they were set before').selectOption('no');
}

/** What axe finds wrong on the page as it stands. */
export async function axeFaults(page: Page): Promise<string[]> {
	// The page's own policy admits no foreign script: axe is run by the browser's tools instead.
	await page.evaluate(readFileSync('node_modules/axe-core/axe.min.js', 'utf8'));
	return page.evaluate(async () => {
		const { axe } = globalThis as unknown as {
			axe: { run(): Promise<{ violations: { id: string; nodes: { html: string }[] }[] }> };
		};
		const { violations } = await axe.run();
		return violations.map(({ id, nodes }) => `${id}: ${nodes[0]?.html}`);
	});
}

/** Answers the question of a step that prepares: marked, ready and warm. */
export async function answerPreparation(page: Page): Promise<void> {
	await page.getByLabel(/^(All marked and identified|Ready and warm)\?/).selectOption('yes');
}

/** Begins a run on a set and works it, gates and all, up to the IF step. */
export async function beginIfStep(page: Page, address: string): Promise<void> {
	await page.goto(`${address}/#/bench/thistlemoor-tm-517`);
	await page.getByRole('button', { name: 'Begin a run' }).click();
	await page.getByRole('button', { name: 'Go on', exact: true }).waitFor();
	await passGates(page);
	for (let step = 0; step < 3; step++) {
		await page.getByRole('button', { name: 'Begin this step' }).click();
		await (step === 0 ? answerTriage(page) : answerPreparation(page));
		await page.getByRole('button', { name: 'This step is done' }).click();
	}
	await page.getByRole('button', { name: 'Go on', exact: true }).waitFor();
	await passGates(page);
	await page.getByRole('button', { name: 'Begin this step' }).click();
}

/** Begins a run on the demo set's dial, gates and all. */
export async function beginDial(page: Page, address: string): Promise<void> {
	await page.goto(`${address}/#/dial/thistlemoor-tm-517`);
	await page.getByRole('button', { name: 'Begin a run' }).click();
	await page.getByRole('button', { name: 'Go on', exact: true }).waitFor();
	await passGates(page);
}

/** Chooses how levels are read on the bench. */
export async function chooseMeter(page: Page, kind: 'virtual set' | 'sound input' | 'typed'): Promise<void> {
	await page.getByRole('combobox', { name: 'Meter' }).selectOption(kind);
}

/** What the program has kept of its newest run, in order. */
export async function journalOf(address: string): Promise<RunEntry[]> {
	const { runs } = (await (await fetch(`${address}/api/runs`)).json()) as { runs: { run: string }[] };
	const answer = await fetch(`${address}/api/runs/${runs[0]?.run}/entries`);
	return ((await answer.json()) as { entries: RunEntry[] }).entries;
}
