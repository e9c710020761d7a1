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
	// The same set with the same gear again: nothing can be told.
	await page.emulateMedia({ colorScheme: 'light' });
	await page.getByRole('button', { name: 'After the work' }).click();
	expect(await page.getByLabel('A ratio of its attenuator, within').inputValue()).toBe('0.5 dB');
	await page.getByRole('button', { name: 'Read with this' }).click();
	await page.getByRole('button', { name: 'Read the virtual set, every test' }).click();
	await page.getByText('before:').first().waitFor();
	await page.getByRole('button', { name: /^Stage by stage\s*4 of 4/ }).waitFor();
	expect(await page.getByText('no change that can be told').count()).toBeGreaterThan(20);
	expect(await page.getByText(/dB (better|worse)$/).count()).toBeLessThan(4);

	// The report and the bench card are had from the record, which stays within a phone.
	await page.goto(`${program.address}/#/record/thistlemoor-tm-517`);
	await page.getByLabel('Done by, as it is printed on the report').fill('J. Smith');
	for (const [name, paper] of [
		['Report', 'A4'],
		['Report', 'Letter'],
		['Bench card', 'Letter'],
	] as const) {
		await page.getByRole('combobox', { name: 'Paper' }).selectOption(paper);
		const href = await page.getByRole('link', { name, exact: true }).getAttribute('href');
		expect(href).toContain(`paper=${paper}`);
		const pdf = await fetch(`${program.address}${href}`);
		expect(pdf.headers.get('content-type')).toBe('application/pdf');
		expect(
			Buffer.from(await pdf.arrayBuffer())
				.subarray(0, 5)
				.toString(),
		).toBe('%PDF-');
	}
	const file = await page.getByRole('link', { name: 'Report as a page for the browser' }).getAttribute('href');
	const html = await fetch(`${program.address}${file}`);
	expect(html.headers.get('content-disposition')).toContain('attachment');
	expect(await html.text()).toContain('size: Letter');
	expect(await axeFaults(page)).toEqual([]);
	expect(await page.evaluate(() => document.documentElement.scrollWidth)).toBeLessThanOrEqual(390);
	const kept = (await journalOf(program.address)).map(({ what }) => what);
	const readings = kept.filter((what) => what.kind === 'test reading');
	expect(readings.map(({ ask }) => ask)).toContain('AVC fall');
	expect(readings[0]).toMatchObject({ instrument: 'typed', words: '170 uV at 1001.2 kc' });
	// Nothing of the virtual set's truth goes into the journal: its readings are as raw as a person's.
	expect(readings.at(-1)).toMatchObject({ instrument: 'virtual set', moment: 'after' });
	expect(faults).toEqual([]);
});

test('words and units that were chosen on the sheet are spoken by gates, triage and tests, and printed', async () => {
	const { page, program, faults, close } = await openPage();
	closing.push(close);
	await page.goto(`${program.address}/#/sheet/thistlemoor-tm-517`);
	await page.getByRole('combobox', { name: 'Words' }).selectOption('UK');
	await page.getByRole('combobox', { name: 'Frequencies' }).selectOption('m');
	await page.goto(`${program.address}/#/tests/thistlemoor-tm-517`);
	await page.getByRole('button', { name: 'Begin a run' }).click();
	expect(await page.getByLabel('Frequencies, within').inputValue()).toBe('100 Hz');
	await page.getByRole('button', { name: 'Read with this' }).click();
	await page.getByRole('button', { name: 'Go on', exact: true }).waitFor();
	await passGates(page);
	// 299,792.458 m kHz: 1,000 kHz is 300 m.
	await page.getByLabel('Input at 1,000 kHz (300 m)').waitFor();
	const said = await page.getByRole('main').textContent();
	expect(said).toContain('aerial terminal');
	expect(said).toContain('source read');
	expect(said).not.toMatch(/\bkc\b|\bantenna\b/);
	await page.getByRole('button', { name: 'Put the run down' }).click();

	await page.goto(`${program.address}/#/bench/thistlemoor-tm-517`);
	await page.getByRole('button', { name: 'Take up the run in hand' }).click();
	await page.getByRole('button', { name: 'Go on', exact: true }).waitFor();
	await passGates(page);
	await page.getByRole('button', { name: 'Begin this step' }).click();
	await page.getByLabel('HT at the filter output').waitFor();
	const triage = await page.getByRole('main').textContent();
	expect(triage).toContain('weak valves');
	expect(triage).toContain('No station further than 20 kHz');
	expect(triage).not.toMatch(/\bB-plus\b|\btubes\b|\bkc\b/);

	await page.goto(`${program.address}/#/record/thistlemoor-tm-517`);
	expect(await page.getByRole('link', { name: 'Report', exact: true }).getAttribute('href')).toMatch(
		/words=UK&units=m/,
	);
	expect(faults).toEqual([]);
});
