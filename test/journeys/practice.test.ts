import { afterEach, expect, test } from 'vitest';
import { axeFaults, openPage, passGates } from './open-page.ts';

const closing: (() => Promise<void>)[] = [];
afterEach(async () => {
	for (const close of closing.splice(0)) await close();
});

test('a lesson is begun, checked too early, worked, checked again, and the truth is shown', async () => {
	const { page, program, faults, close } = await openPage();
	closing.push(close);
	await page.getByRole('link', { name: 'Practise on a virtual set' }).click();
	await page.getByRole('heading', { level: 1, name: 'Practice' }).waitFor();
	expect(await axeFaults(page)).toEqual([]);
	await page.setViewportSize({ width: 390, height: 844 });
	expect(await page.evaluate(() => document.documentElement.scrollWidth)).toBeLessThanOrEqual(390);
	await page.setViewportSize({ width: 1280, height: 800 });

	await page.getByRole('link', { name: 'The way home' }).click();
	await page.getByRole('button', { name: 'Begin', exact: true }).click();
	await page.getByRole('button', { name: 'Go on', exact: true }).waitFor();
	await passGates(page);
	await page.getByRole('button', { name: 'Begin this step' }).click();
	await page.getByRole('button', { name: 'Check my work' }).click();
	await page.getByText('Not yet. The worst screw is').waitFor();

	// Both turns are taken back by count alone.
	for (const { name, key, eighths } of [
		{ name: 'T1 pri.', key: 'PageDown', eighths: 3 },
		{ name: 'T2 sec.', key: 'PageUp', eighths: 2 },
	]) {
		await page.locator('.adjusters button').filter({ hasText: name }).click();
		await page.getByRole('slider', { name: `${name}, screw` }).focus();
		for (let k = 0; k < eighths; k++) await page.keyboard.press(key);
		await page.getByRole('button', { name: 'Back to the step' }).click();
	}
	await page.getByRole('button', { name: 'Check my work' }).click();
	await page.getByText('Done. The worst screw is 0.0 eighths').waitFor();
	await page.getByRole('button', { name: 'Show the truth' }).click();
	await page.getByText('It had no fault beside its screws.').waitFor();
	// The journey is quicker than a person who reads the cautions, and is told so.
	await page.getByText(/^Cautions were confirmed within 4 seconds/).waitFor();
	await page.getByRole('link', { name: 'Next lesson: When alignment gives nothing back' }).waitFor();
	expect(await axeFaults(page)).toEqual([]);

	// The lesson is a run like any other: taken up again it is the same lesson.
	await page.goto(`${program.address}/#/bench/thistlemoor-tm-517`);
	await page.reload();
	await page.getByRole('button', { name: /^Run of/ }).click();
	await page.getByText('Take both turns back by count alone.').first().waitFor();
	expect(faults).toEqual([]);
});
