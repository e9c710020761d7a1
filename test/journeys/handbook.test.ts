import { expect, test } from 'vitest';
import { axeFaults, openPage } from './open-page.ts';

test('the handbook opens at the page of the work at hand, finds either side’s words, and leads on', async () => {
	const { page, program, faults, close } = await openPage();
	try {
		await page.goto(`${program.address}/#/dial/thistlemoor-tm-517`);
		await page.getByRole('link', { name: 'Handbook' }).click();
		await page.getByRole('heading', { level: 1, name: 'Why the dial is off' }).waitFor();
		const picture = page.getByRole('img', { name: /The page Dial/ });
		await picture.scrollIntoViewIfNeeded();
		await page.waitForFunction(() => [...document.images].some((image) => image.naturalWidth > 600));

		await page.getByRole('searchbox', { name: 'Search the handbook' }).fill('speech coil');
		await page.getByRole('status').getByText('the likeliest first').waitFor();
		await page.getByRole('link', { name: 'Sound card or microphone' }).click();
		await page.getByRole('heading', { name: 'Connecting what you have' }).waitFor();
		expect(await page.getByRole('heading', { name: 'Sound card or microphone' }).isVisible()).toBe(true);
		await page.goBack();
		await page.getByText('the likeliest first').waitFor();

		await page.getByRole('searchbox', { name: 'Search the handbook' }).fill('zebra');
		await page.getByText('Nothing has all of these words').waitFor();
		await page.goto(`${program.address}/#/handbook/two-peaks`);
		await page.getByRole('img', { name: /Three IF curves/ }).waitFor();
		expect(await axeFaults(page)).toEqual([]);
		await page.goto(`${program.address}/#/handbook/nothing-here`);
		await page.getByRole('alert').getByText('There is no page').waitFor();
		expect(faults).toEqual([]);
	} finally {
		await close();
	}
});

test('a first start offers a tour that goes through the screens, can be left at once, and is not offered again', async () => {
	const { page, program, faults, close } = await openPage();
	try {
		await page.goto(`${program.address}/#/shelf`);
		await page.getByRole('button', { name: 'Begin the tour' }).click();
		for (const name of ['Card', 'Sheet', 'Bench', 'Response', 'Dial', 'Record']) {
			await page.locator(`nav a[aria-current=page]:text-is("${name}")`).waitFor();
			await page.getByRole('button', { name: 'Next stop' }).click();
		}
		await page.getByText('7 of 7.').waitFor();
		await page.getByRole('heading', { level: 1, name: 'The first hour' }).waitFor();
		expect(await axeFaults(page)).toEqual([]);
		await page.getByRole('button', { name: 'End of the tour' }).click();
		await page.goto(`${program.address}/#/shelf`);
		await page.reload();
		await page.getByRole('link', { name: 'Describe a set' }).waitFor();
		expect(await page.getByRole('button', { name: 'Begin the tour' }).count()).toBe(0);
		expect(faults).toEqual([]);
	} finally {
		await close();
	}
});
