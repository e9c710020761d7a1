import type { Page } from 'playwright-core';
import { afterEach, expect, test } from 'vitest';
import { axeFaults, journalOf, openPage } from './open-page.ts';
import { nameRuns, nudge, numberIn, openResponse, readAll, reads } from './response-page.ts';

const closing: (() => Promise<void>)[] = [];
afterEach(async () => {
	for (const close of closing.splice(0)) await close();
});

/** Follows one act as a careful hand would: coarse steps until the mark is passed, then fine ones back to it. */
async function follow(page: Page, words: string): Promise<void> {
	const expectedDb = numberIn(words, /until the meter reads (-?[\d.]+) dB/);
	const isOverPeak = words.includes('rises to a peak first');
	const isRising = isOverPeak || words.includes('It rises all the way');
	const before = await reads(page, 'Read here');
	// Nudges were clockwise; where the act does not say, the way is tried.
	let way = words.includes('the same way as') ? '+' : '\u2212';
	let last = before;
	const step = (size: number) => reads(page, `${way} 1/${size}`);
	if (words.includes('whichever way')) {
		last = await step(16);
		if (last > before !== isRising) {
			way = way === '+' ? '\u2212' : '+';
			await step(16);
			last = await step(16);
		}
	}
	let isFalling = !isRising;
	for (let turned = 0; turned < 60; turned++) {
		if (isOverPeak && !isFalling && last < before) isFalling = true;
		const isPassed = isFalling ? last <= expectedDb : last >= expectedDb && !isOverPeak;
		if (isPassed) break;
		const now = await step(16);
		if (isOverPeak && now < last) isFalling = true;
		last = now;
	}
	way = way === '+' ? '\u2212' : '+';
	for (let turned = 0; turned < 4; turned++) {
		const now = await step(64);
		if (Math.abs(now - expectedDb) > Math.abs(last - expectedDb)) {
			way = way === '+' ? '\u2212' : '+';
			await step(64);
			break;
		}
		last = now;
	}
}

test('from the page alone, the adjusters that are off are found by two nudges, and put right by reading', async () => {
	const { page, program, faults, close } = await openPage();
	closing.push(close);
	await nameRuns(page, 'fulmar');
	await openResponse(page, program.address);
	await page.getByRole('button', { name: 'Begin the sweep' }).click();
	await readAll(page);
	await page.getByText('One sweep cannot tell which adjuster is off').waitFor();
	expect(await axeFaults(page)).toEqual([]);
	// The chart is a curve, not a line: its points lie at many heights.
	const heights = await page
		.locator('svg.response circle')
		.evaluateAll((points) => points.map((point) => Number(point.getAttribute('cy'))));
	expect(new Set(heights.map((height) => Math.round(height / 10))).size).toBeGreaterThan(6);

	await nudge(page, 'T2 sec.');
	await nudge(page, 'T1 pri.');
	await page.getByRole('heading', { name: 'Put it right' }).waitFor({ timeout: 30_000 });
	await page.setViewportSize({ width: 390, height: 844 });
	expect(await page.evaluate(() => document.documentElement.scrollWidth)).toBeLessThanOrEqual(390);
	await page.setViewportSize({ width: 1280, height: 800 });
	expect(await axeFaults(page)).toEqual([]);

	// This set has feedback: with every circuit on the IF its curve would lean.
	await page.getByRole('radio', { name: 'a symmetrical curve' }).check();
	await page.locator('section[aria-busy="false"]').waitFor({ timeout: 20_000 });

	let settings = 0;
	for (; settings < 8; settings++) {
		await page.locator('section[aria-busy="false"]').waitFor({ timeout: 20_000 });
		const set = page.getByRole('button', { name: /is set$/ });
		if (!(await set.isVisible())) break;
		// One reading before the turn, with the tool withdrawn.
		if (await page.getByText('Before the next turn').isVisible()) {
			await page.getByRole('button', { name: 'Keep this point' }).click();
			await page.getByText('Before the next turn').waitFor({ state: 'detached' });
			await page.locator('section[aria-busy="false"]').waitFor({ timeout: 20_000 });
		}
		await follow(page, (await page.getByRole('listitem').filter({ has: set }).textContent()) ?? '');
		const named = (await set.textContent()) ?? '';
		await set.click();
		await page.getByRole('button', { name: 'not counted' }).click();
		await page.getByText(named.replace(' is set', ': set.')).last().waitFor();
		// The mark once more, and a point on either flank.
		await readAll(page);
	}
	expect(settings).toBeGreaterThanOrEqual(3);
	await page.getByRole('button', { name: 'Proof sweep' }).click();
	await readAll(page);
	const cell = page.getByRole('row', { name: /^6 dB width/ });
	await expect
		.poll(async () => Math.abs(Number(/centred on ([\d.]+)/.exec((await cell.textContent()) ?? '')?.[1]) - 455), {
			timeout: 20_000,
		})
		.toBeLessThan(1);
	const asymmetry = await page.getByRole('row', { name: /^Asymmetry/ }).textContent();
	expect(Math.abs(numberIn(asymmetry, /(-?[\d.]+) \u00b1/))).toBeLessThan(3);

	// A sweep is named, and laid beside the one in hand under its letter.
	await page.getByText('Name and compare sweeps').click();
	await page.getByRole('textbox', { name: 'Name' }).first().fill('as found');
	await page.keyboard.press('Tab');
	await page.getByRole('checkbox', { name: /^as found, \d+ points/ }).check();
	await page.getByRole('rowheader', { name: 'A: as found' }).waitFor();
	await page.getByRole('button', { name: 'Look at earlier runs of this set' }).click();
	await page.getByText('No earlier run of this set has a sweep.').waitFor();
	expect(await axeFaults(page)).toEqual([]);
	await page.setViewportSize({ width: 390, height: 844 });
	expect(await page.evaluate(() => document.documentElement.scrollWidth)).toBeLessThanOrEqual(390);

	const kept = await journalOf(program.address);
	expect(kept.filter(({ what }) => what.kind === 'sweep point').length).toBeGreaterThan(75);
	expect(kept.filter(({ what }) => what.kind === 'adjusted').length).toBe(settings + 2);
	expect(kept.filter(({ what }) => what.kind === 'sweep begun' && what.role === 'setting').length).toBe(settings);
	expect(faults).toEqual([]);
}, 120_000);

test('readings are typed point by point, struck and read again, and a file is taken whole or refused with its line', async () => {
	const { page, program, faults, close } = await openPage();
	closing.push(close);
	await openResponse(page, program.address);
	await page.getByRole('button', { name: 'Begin the sweep' }).click();
	await page.getByText('Meter, way of reading, file').click();
	await page.getByRole('combobox', { name: 'Meter' }).selectOption('typed');
	await page.getByRole('checkbox', { name: /kept at one reading/ }).uncheck();
	for (const [frequency, reading] of [
		['455 kc', '2.40 V'],
		['449 kc', '1.1 V'],
		['461 kc', '0.9 V'],
	] as const) {
		// The page proposes where to read next.
		expect(await page.getByRole('textbox', { name: 'Generator' }).inputValue()).toBe(frequency);
		await page.getByRole('textbox', { name: 'Reading' }).fill(reading);
		await page.keyboard.press('Enter');
		await page.getByText(new RegExp(`^${frequency}: `)).waitFor();
	}
	await page.getByRole('textbox', { name: 'Reading' }).fill('loud');
	await page.keyboard.press('Enter');
	await page.getByText('cannot read a level from "loud"').waitFor();
	await page
		.getByText(/^461 kc: /)
		.getByRole('button', { name: 'strike' })
		.click();
	await expect.poll(() => page.getByRole('textbox', { name: 'Generator' }).inputValue()).toBe('461 kc');

	await page.getByRole('button', { name: 'A new sweep' }).click();
	await page.getByText('Meter, way of reading, file').click();
	const file = page.locator('input[type=file]');
	await file.setInputFiles({ name: 'odd.csv', mimeType: 'text/csv', buffer: Buffer.from('kHz,dB\n450,-3\n451,x\n') });
	await page.getByText('odd.csv: line 3, column 2').waitFor();
	await file.setInputFiles('examples/if-curve.csv');
	await page.getByText(/points from if-curve\.csv, taken in/).waitFor();
	await page.getByRole('row', { name: /^6 dB width 8\.4/ }).waitFor({ timeout: 20_000 });
	// A person's generator is not taken on trust: how well its frequency is known is asked.
	await page
		.getByRole('combobox', { name: "The generator's frequency is known" })
		.selectOption('by a counter, or it is digital');
	expect(await axeFaults(page)).toEqual([]);
	expect(faults).toEqual([]);
});
