import type { Page } from 'playwright-core';
import { afterEach, expect, test } from 'vitest';
import { axeFaults, beginIfStep, openPage } from './open-page.ts';

const closing: (() => Promise<void>)[] = [];
afterEach(async () => {
	for (const close of closing.splice(0)) await close();
});

/** Gives more signal, as the coach asks, until the virtual set is read. */
async function readable(page: Page): Promise<void> {
	const coach = page.locator('.coach');
	await expect
		.poll(async () => {
			const words = await coach.textContent();
			if (words?.includes('Too weak')) await page.getByRole('button', { name: '+ 6 dB' }).click();
			return words;
		})
		.toMatch(/Turn|best|Near|Nothing changes/);
}

test('an adjuster of the virtual set is turned by keys, read live, and stays where it was left over a reload', async () => {
	const { page, program, faults, close } = await openPage();
	closing.push(close);
	await beginIfStep(page, program.address);
	await page.getByRole('button', { name: 'T2 sec.' }).click();
	await page.getByRole('button', { name: 'Read the virtual set' }).click();
	const coach = page.locator('.coach');
	await readable(page);
	expect(await axeFaults(page)).toEqual([]);
	await page.setViewportSize({ width: 390, height: 844 });
	expect(await page.evaluate(() => document.documentElement.scrollWidth)).toBeLessThanOrEqual(390);
	await page.setViewportSize({ width: 1280, height: 800 });

	// Turned one way until the coach says that the level falls, by the keyboard alone.
	const more = page.getByRole('button', { name: '+ 1/8' });
	await more.focus();
	await expect
		.poll(
			async () => {
				await page.keyboard.press('Enter');
				return coach.textContent();
			},
			{ timeout: 20_000, interval: 700 },
		)
		.toContain('Falling: turn T2 sec. the other way');

	// A changed generator level is no fall: the coach begins anew, and the record says so.
	await page.getByRole('button', { name: '\u2212 6 dB' }).click();
	await expect.poll(() => coach.textContent()).not.toContain('Falling');
	await page.getByRole('button', { name: 'T2 sec. is set' }).click();
	await page.getByRole('button', { name: '+1/8' }).click();
	// The meter stays chosen for the next adjuster.
	await page.getByRole('button', { name: 'T2 pri.' }).click();
	await page.getByRole('button', { name: 'Stop reading the virtual set' }).waitFor();

	const keptTurns = () =>
		page.evaluate(() => Object.entries(localStorage).find(([key]) => key.startsWith('virtual-set '))?.[1]);
	const left = await keptTurns();
	expect(left).toContain('if2-secondary');
	await page.goto(`${program.address}/#/record/thistlemoor-tm-517`);
	await page.reload();
	expect(await keptTurns()).toBe(left);
	await page.getByRole('button', { name: /^Show its/ }).click();
	await page
		.getByText(/generator level \d/)
		.last()
		.waitFor();
	expect(faults).toEqual([]);
});
