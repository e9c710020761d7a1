import puppeteer, { type Browser, type ElementHandle, type Page } from 'puppeteer-core';
import { afterEach, expect, test } from 'vitest';
import { journalOf, type RunningProgram, scratchFolder, startProgram } from './open-page.ts';

let browser: Browser | null = null;
let program: RunningProgram | null = null;
afterEach(async () => {
	await browser?.close();
	await program?.end('SIGTERM');
});

const named = (role: string, name: string): string => `::-p-aria([name="${name}"][role="${role}"])`;
/** A control inside the label that begins with these words. */
const labelled = (tag: string, words: string): string =>
	`::-p-xpath(//label[starts-with(normalize-space(.), "${words}")]//${tag})`;
/** A control, as soon as it is there. */
async function control(page: Page, selector: string): Promise<ElementHandle<Element>> {
	const found = await page.waitForSelector(selector, { timeout: 60_000 });
	if (found === null) throw new Error(`missing control: ${selector}`);
	return found as ElementHandle<Element>;
}
const press = async (page: Page, name: string): Promise<void> => (await control(page, named('button', name))).click();
const heading = (page: Page): Promise<string> => page.$eval('h1', (one) => one.textContent ?? '');
const isThere = async (page: Page, name: string): Promise<boolean> => (await page.$(named('button', name))) !== null;

/** Answers every gate that stands in the way, as a careful person would. */
async function passGates(page: Page): Promise<void> {
	await control(page, named('button', 'Go on'));
	while (await isThere(page, 'Go on')) {
		const before = await heading(page);
		for (const field of await page.$$('input[placeholder="0.2 V"]')) await field.type('0.3 V');
		for (const box of await page.$$('input[type=checkbox]:not(:checked)')) await box.click();
		await press(page, 'Go on');
		await page.waitForFunction((old) => document.querySelector('h1')?.textContent !== old, {}, before);
	}
}

/** Works a new run up to the IF step. */
async function beginIfStep(page: Page, address: string): Promise<void> {
	await page.goto(`${address}/#/bench/thistlemoor-tm-517`);
	await press(page, 'Begin a run');
	await passGates(page);
	for (let step = 0; step < 3; step++) {
		await press(page, 'Begin this step');
		if (step === 0) {
			await (await control(page, labelled('input', 'B-plus at the filter output'))).type('95 V');
			for (const question of await page.$$('.question select')) await question.select('yes');
			await (await control(page, labelled('select', 'Screws as they were set before'))).select('no');
		} else await (await control(page, labelled('select', step === 1 ? 'All marked' : 'Ready and warm'))).select('yes');
		await press(page, 'This step is done');
	}
	await passGates(page);
	await press(page, 'Begin this step');
}

test('in Firefox the virtual set is worked: gates, a reading, a curve, the sheet and the handbook', async () => {
	program = await startProgram(scratchFolder());
	browser = await puppeteer.launch({
		browser: 'firefox',
		executablePath: process.env.FIREFOX ?? '/usr/bin/firefox-esr',
		headless: true,
	});
	const page = await browser.newPage();
	await page.setViewport({ width: 1280, height: 800 });
	const faults: string[] = [];
	page.on('pageerror', (error) => faults.push(String(error)));
	page.on('console', (message) => {
		if (message.type() === 'error') faults.push(message.text());
	});
	const { address } = program;
	await beginIfStep(page, address);
	await (await control(page, labelled('select', 'Meter'))).select('typed');
	await press(page, 'T2 sec.');
	await (await control(page, named('textbox', 'Reading'))).type('1.0 V');
	await page.keyboard.press('Enter');
	await expect
		.poll(async () =>
			(await journalOf(address)).some(({ what }) => what.kind === 'level' && what.reading.words === '1.0 V'),
		)
		.toBe(true);
	await (await control(page, labelled('select', 'Meter'))).select('virtual set');
	// The virtual set is simulated in the page: its level stands on the needle.
	await page.waitForFunction(() => /\d dB/.test(document.querySelector('.level')?.textContent ?? ''));

	await page.goto(`${address}/#/response/thistlemoor-tm-517`);
	await press(page, 'Begin a run');
	await passGates(page);
	await press(page, 'Begin the sweep');
	await press(page, 'Read them all');
	await page.waitForFunction(() => document.body.textContent?.includes('enough for this sweep'), { timeout: 50_000 });
	expect((await page.$$('svg.response circle')).length).toBeGreaterThan(20);

	await page.goto(`${address}/#/sheet/thistlemoor-tm-517`);
	await page.waitForFunction(() => document.querySelectorAll('svg.hook-up').length > 2);
	await page.goto(`${address}/#/handbook/theory`);
	await page.waitForFunction(() => document.querySelectorAll('math').length > 5);
	expect(faults).toEqual([]);
}, 240_000);
