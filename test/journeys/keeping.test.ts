import type { BrowserContext, Page } from 'playwright-core';
import { afterEach, expect, test } from 'vitest';
import {
	axeFaults,
	beginIfStep,
	chooseMeter,
	journalOf,
	openBrowser,
	type RunningProgram,
	scratchFolder,
	startProgram,
} from './open-page.ts';

const closing: (() => Promise<void>)[] = [];
afterEach(async () => {
	for (const close of closing.splice(0).reverse()) await close();
});

const portOf = ({ address }: RunningProgram): number => Number(new URL(address).port);

async function program(data: string, port = 0): Promise<RunningProgram> {
	const started = await startProgram(data, port);
	closing.push(() => started.end('SIGTERM'));
	return started;
}

async function browser(): Promise<BrowserContext> {
	const opened = await openBrowser(scratchFolder());
	closing.push(() => opened.close());
	return opened;
}

/** Works a run up to the IF step with its first adjuster in hand. */
async function benchWithReadings(context: BrowserContext, address: string, words: readonly string[]): Promise<Page> {
	const page = context.pages()[0] ?? (await context.newPage());
	await beginIfStep(page, address);
	await chooseMeter(page, 'typed');
	await page.getByRole('button', { name: 'T2 sec.' }).click();
	await read(page, words);
	return page;
}

async function read(page: Page, readings: readonly string[]): Promise<void> {
	const field = page.getByRole('textbox', { name: 'Reading' });
	for (const words of readings) {
		await field.fill(words);
		await page.keyboard.press('Enter');
		await expect.poll(() => field.inputValue()).toBe('');
	}
}

/** The typed readings in the journal, in their order. */
const typed = async (address: string): Promise<string[]> =>
	(await journalOf(address)).flatMap(({ what }) => (what.kind === 'level' ? [what.reading.words ?? ''] : []));

test('readings taken while the program is dead survive the closing of the page and are sent in their order', async () => {
	const data = scratchFolder();
	const first = await program(data);
	const context = await browser();
	const page = await benchWithReadings(context, first.address, ['1.0 V']);
	await expect.poll(() => typed(first.address)).toEqual(['1.0 V']);
	await first.end('SIGKILL');
	await read(page, ['1.1 V', '1.2 V', '1.3 V']);
	await page.getByText('Not yet kept: 3 readings.').waitFor();
	await expect.poll(() => page.getByText('not yet kept', { exact: true }).count()).toBe(3);
	expect(await axeFaults(page)).toEqual([]);
	const other = await context.newPage();
	await page.close();
	const again = await program(data, portOf(first));
	expect(await typed(again.address)).toEqual(['1.0 V']);
	await other.goto(again.address);
	await expect.poll(() => typed(again.address)).toEqual(['1.0 V', '1.1 V', '1.2 V', '1.3 V']);
	expect((await journalOf(again.address)).map(({ order }) => order)).toEqual(
		(await journalOf(again.address)).map((_, index) => index),
	);
});

test('an entry whose answer was lost is sent again and kept once', async () => {
	const { address } = await program(scratchFolder());
	const page = await benchWithReadings(await browser(), address, ['1.0 V']);
	// What is still on its way would be counted with the one that is lost.
	await expect.poll(() => typed(address)).toEqual(['1.0 V']);
	let lost = 0;
	await page.route('**/entries', async (route) => {
		// The program keeps them, and the page never hears of it.
		await route.fetch();
		lost++;
		await route.abort();
	});
	await read(page, ['1.1 V']);
	await page.getByText('Not yet kept: 1 reading.').waitFor();
	await expect.poll(() => lost, { timeout: 10_000 }).toBeGreaterThan(1);
	await page.unroute('**/entries');
	await page.getByText('Not yet kept:').waitFor({ state: 'detached' });
	expect(await typed(address)).toEqual(['1.0 V', '1.1 V']);
});

test('a second tab on the same run asks before it takes it over, and the first says that it stopped', async () => {
	const { address } = await program(scratchFolder());
	const context = await browser();
	const first = await benchWithReadings(context, address, ['1.0 V']);
	const second = await context.newPage();
	await second.goto(`${address}/#/bench/thistlemoor-tm-517`);
	await second.getByRole('button', { name: /^Run of/ }).click();
	await second.getByText('This run is worked in another tab of this browser.').waitFor();
	expect(await axeFaults(second)).toEqual([]);
	// Left there, nothing changes: the first goes on.
	await second.getByRole('button', { name: 'Leave it there' }).click();
	await read(first, ['1.1 V']);
	await second.getByRole('button', { name: /^Run of/ }).click();
	await second.getByRole('button', { name: 'Take it over' }).click();
	await second.getByRole('heading', { level: 1, name: 'Before you go on' }).waitFor();
	await first.getByText('This run was taken over in another tab.').waitFor();
	expect(await first.getByRole('textbox', { name: 'Reading' }).count()).toBe(0);
	// A tab that is closed gives its run free.
	await second.close();
	await first.getByRole('button', { name: /^Run of/ }).click();
	await first.getByRole('heading', { level: 1, name: 'Before you go on' }).waitFor();
	const resumed = async () => (await journalOf(address)).filter(({ what }) => what.kind === 'resumed').length;
	await expect.poll(resumed).toBe(2);
	expect(await typed(address)).toEqual(['1.0 V', '1.1 V']);
});

test('two browsers on one run: both are kept, and the one that comes late says so', async () => {
	const { address } = await program(scratchFolder());
	const here = await benchWithReadings(await browser(), address, ['1.0 V']);
	const other = await browser();
	const there = other.pages()[0] ?? (await other.newPage());
	await there.goto(`${address}/#/bench/thistlemoor-tm-517`);
	await there.getByRole('button', { name: /^Run of/ }).click();
	await there.getByRole('heading', { level: 1, name: 'Before you go on' }).waitFor();
	await expect.poll(async () => (await journalOf(address)).at(-1)?.what.kind).toBe('resumed');
	await here.getByRole('textbox', { name: 'Reading' }).fill('1.1 V');
	await here.keyboard.press('Enter');
	await here.getByText('This run was worked in another browser meanwhile.').waitFor();
	// The late one's reading was given the place behind what the other had kept.
	expect((await journalOf(address)).slice(-2).map(({ what }) => what.kind)).toEqual(['resumed', 'level']);
});

test('in a browser that keeps nothing a reading counts only when the program has it, and what was typed stays', async () => {
	const started = await program(scratchFolder());
	const context = await browser();
	await context.addInitScript(() => {
		IDBFactory.prototype.open = () => {
			throw new DOMException('no storage here', 'SecurityError');
		};
	});
	const page = await benchWithReadings(context, started.address, ['1.0 V']);
	await expect.poll(() => typed(started.address)).toEqual(['1.0 V']);
	await started.end('SIGKILL');
	await page.getByRole('textbox', { name: 'Reading' }).fill('1.1 V');
	await page.keyboard.press('Enter');
	await page.getByRole('alert').filter({ hasText: 'Not kept: Peakwright does not answer' }).waitFor();
	expect(await page.getByRole('textbox', { name: 'Reading' }).inputValue()).toBe('1.1 V');
});
