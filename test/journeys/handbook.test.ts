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
