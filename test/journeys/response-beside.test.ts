import type { Page } from 'playwright-core';
import { afterEach, expect, test } from 'vitest';
import { axeFaults, journalOf, openPage } from './open-page.ts';
import { nameRuns, numberIn, openResponse, readAll, reads } from './response-page.ts';

const closing: (() => Promise<void>)[] = [];
afterEach(async () => {
	for (const close of closing.splice(0)) await close();
});

/** Turns for the most at the frequency that is set: coarse steps, then fine ones, back where it falls. */
async function peak(page: Page): Promise<void> {
	for (const size of [16, 64]) {
		let best = await reads(page, 'Read here');
		let ways = ['+', '\u2212'];
		for (let turned = 0; turned < 40; turned++) {
			const now = await reads(page, `${ways[0]} 1/${size}`);
			if (now > best) best = now;
			else {
				await reads(page, `${ways[1]} 1/${size}`);
				if (turned > 0) break;
				ways = ways.toReversed();
			}
		}
	}
}

/** Number in a row of the curve's figures. */
async function figure(page: Page, row: RegExp, number: RegExp): Promise<number> {
	return numberIn(await page.getByRole('row', { name: row }).first().textContent(), number);
}
const asymmetryDb = (page: Page) => figure(page, /^Asymmetry/, /(-?[\d.]+) \u00b1/);

test('loaded peaking is worked to its end with a part on the partner, and a later run is compared with this one', async () => {
	const { page, program, faults, close } = await openPage();
	closing.push(close);
	await nameRuns(page, 'whinchat');
	await openResponse(page, program.address);
	await page.getByRole('button', { name: 'Begin the sweep' }).click();
	await readAll(page);
	await page.getByText('One sweep cannot tell which adjuster is off').waitFor();
	await page.getByText('Name and compare sweeps').click();
	await page.getByRole('textbox', { name: 'Name' }).first().fill('as found');
	await page.keyboard.press('Tab');

	await page.getByText('Another way: loaded peaking').click();
	for (const name of ['T2 sec.', 'T2 pri.', 'T1 sec.', 'T1 pri.']) {
		await page
			.getByRole('listitem')
			.filter({ hasText: `peak ${name}` })
			.getByRole('button', { name: 'proved dead' })
			.click();
		if (name === 'T2 sec.') {
			expect(await axeFaults(page)).toEqual([]);
			await page.setViewportSize({ width: 390, height: 844 });
			expect(await page.evaluate(() => document.documentElement.scrollWidth)).toBeLessThanOrEqual(390);
			await page.setViewportSize({ width: 1280, height: 800 });
		}
		await peak(page);
		await page.getByRole('button', { name: `${name} is peaked` }).click();
		await page.getByRole('button', { name: 'not counted' }).click();
		await page.getByText(`${name}: peaked.`).waitFor();
	}
	await page.getByRole('button', { name: 'It is off: sweep the proof' }).click();
	await readAll(page);
	await page.getByRole('heading', { name: 'Response, as it stands' }).waitFor();
	await expect
		.poll(() => figure(page, /^6 dB width/, /centred on ([\d.]+)/).then((kc) => Math.abs(kc - 455)), {
			timeout: 20_000,
		})
		.toBeLessThan(1);
	const peakedDb = await asymmetryDb(page);
	const kept = await journalOf(program.address);
	expect(kept.filter(({ what }) => what.kind === 'adjusted').length).toBe(4);

	// A later run of the same set looks back at this one.
	await page.getByText('Hook-up and leaving').click();
	await page.getByRole('button', { name: 'Leave the run for now' }).click();
	await openResponse(page, program.address);
	await page.getByRole('button', { name: 'Begin the sweep' }).click();
	await readAll(page);
	await page.getByText('Name and compare sweeps').click();
	await page.getByRole('button', { name: 'Look at earlier runs of this set' }).click();
	await page.getByRole('checkbox', { name: /^as found, .*31 points/ }).check();
	await page.getByRole('checkbox', { name: /^as it stands, .*20.*31 points/ }).check();
	await page.getByRole('rowheader', { name: /^A: as found, / }).waitFor();
	const beside = await page.getByRole('row', { name: /^B: as it stands, / }).textContent();
	expect(numberIn(beside, /(-?[\d.]+) \u00b1 [\d.]+ dB\s*$/)).toBeCloseTo(peakedDb, 0);
	// Both are in the chart, each by its letter.
	for (const letter of ['A', 'B'])
		await page
			.locator('svg.response text', { hasText: new RegExp(`^${letter}$`) })
			.first()
			.waitFor();
	expect(await axeFaults(page)).toEqual([]);
	await page.setViewportSize({ width: 390, height: 844 });
	expect(await page.evaluate(() => document.documentElement.scrollWidth)).toBeLessThanOrEqual(390);
	expect(faults).toEqual([]);
}, 240_000);
