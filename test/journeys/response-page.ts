import type { Page } from 'playwright-core';
import { passGates } from './open-page.ts';

/** A run's name decides how its virtual set is tampered: a name of our own makes this the same set each time. */
export async function nameRuns(page: Page, name: string): Promise<void> {
	await page.addInitScript((prefix) => {
		let count = 0;
		Object.defineProperty(crypto, 'randomUUID', { value: () => `${prefix}-${count++}` });
	}, name);
	await page.reload();
}

/** Begins a run on the page Response and passes its gates. */
export async function openResponse(page: Page, address: string): Promise<void> {
	await page.goto(`${address}/#/response/thistlemoor-tm-517`);
	await page.getByRole('button', { name: 'Begin a run' }).click();
	await page.getByRole('button', { name: 'Go on', exact: true }).waitFor();
	await passGates(page);
}

/** Has the virtual set read to the end of the sweep in hand. */
export async function readAll(page: Page): Promise<void> {
	await page.getByRole('button', { name: 'Read them all' }).click();
	await page.getByText('enough for this sweep').waitFor({ timeout: 30_000 });
}

/** The number that a pattern finds in words of the page, where minus is a sign of its own. */
export function numberIn(words: string | null, pattern: RegExp): number {
	return Number(pattern.exec((words ?? '').replaceAll('\u2212', '-'))?.[1]);
}

/** Presses what reads or turns the virtual set, and gives back the reading in decibels. */
export async function reads(page: Page, press: string): Promise<number> {
	await page.getByRole('button', { name: press, exact: true }).click();
	return numberIn(await page.locator('.now-reads').textContent(), /Now (-?[\d.]+) dB/);
}

/** Turns one adjuster of the virtual set by an eighth, clockwise, and reads what the page wants after it. */
export async function nudge(page: Page, name: string): Promise<void> {
	await page.getByRole('button', { name: 'Nudge an adjuster' }).click();
	await page.getByRole('button', { name, exact: true }).click();
	await page.getByRole('button', { name: '+ 1/8' }).click();
	await page.getByRole('button', { name: 'It is turned' }).click();
	await readAll(page);
}
