import { afterEach, expect, test } from 'vitest';
import { axeFaults, journalOf, openPage, passGates } from './open-page.ts';

const closing: (() => Promise<void>)[] = [];
afterEach(async () => {
	for (const close of closing.splice(0)) await close();
});

test('the standard tests are typed and read from the virtual set, and say what they prove', async () => {
	const { page, program, faults, close } = await openPage();
	closing.push(close);
	await page.goto(`${program.address}/#/tests/thistlemoor-tm-517`);
	await page.getByRole('button', { name: 'Begin a run' }).click();
	await page.getByLabel('A ratio of its attenuator, within').fill('much');
	await page.getByRole('button', { name: 'Read with this' }).click();
	await page.getByText('cannot read a level from "much"').waitFor();
	await page.getByLabel('A ratio of its attenuator, within').fill('0.5 dB');
	await page.getByRole('button', { name: 'Read with this' }).click();
	await page.getByRole('button', { name: 'Go on', exact: true }).waitFor();
	await passGates(page);

	// A bare number is refused and kept in its field; with its unit it is a reading.
	const field = page.getByLabel('Input at 1,000 kc');
	await field.fill('170');
	await page.getByRole('button', { name: 'Keep the reading' }).click();
	await page.getByText('cannot read a voltage from "170"').waitFor();
	expect(await field.inputValue()).toBe('170');
	await field.fill('170 uV at 1001.2 kc');
	await page.getByRole('button', { name: 'Keep the reading' }).click();
	await page.getByRole('cell', { name: '170 uV at 1001.2 kc' }).waitFor();
	await page.getByRole('heading', { name: 'Sensitivity at 1,000 kc' }).waitFor();

	await page.getByRole('button', { name: 'Read the virtual set, every test' }).click();
	await page.getByRole('heading', { name: 'Gain to the converter grid' }).waitFor();
	expect(await axeFaults(page)).toEqual([]);
	for (const scheme of ['light', 'dark'] as const) {
		await page.emulateMedia({ colorScheme: scheme });
		for (const width of [1280, 390]) {
			await page.setViewportSize({ width, height: 844 });
			expect(await page.evaluate(() => document.documentElement.scrollWidth)).toBeLessThanOrEqual(width);
			if (process.env.PEAKWRIGHT_SHOTS)
				await page.screenshot({ path: `${process.env.PEAKWRIGHT_SHOTS}/tests-${scheme}-${width}.png`, fullPage: true });
		}
	}
	const kept = (await journalOf(program.address)).map(({ what }) => what);
	const readings = kept.filter((what) => what.kind === 'test reading');
	expect(readings.map(({ ask }) => ask)).toContain('AVC fall');
	expect(readings[0]).toMatchObject({ instrument: 'typed', words: '170 uV at 1001.2 kc' });
	// Nothing of the virtual set's truth goes into the journal: its readings are as raw as a person's.
	expect(readings.at(-1)).toMatchObject({ instrument: 'virtual set', moment: 'before' });
	expect(faults).toEqual([]);
});
