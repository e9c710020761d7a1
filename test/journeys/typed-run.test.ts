import { afterEach, expect, test } from 'vitest';
import {
	answerPreparation,
	answerTriage,
	axeFaults,
	chooseMeter,
	journalOf,
	openBrowser,
	openPage,
	passGates,
	scratchFolder,
	startProgram,
} from './open-page.ts';

const closing: (() => Promise<void>)[] = [];
afterEach(async () => {
	for (const close of closing.splice(0)) await close();
});

const demo = 'thistlemoor-tm-517';

test('every screen is sound for screen readers, in light and in dark, on a desk and on a phone', async () => {
	const { page, program, faults, close } = await openPage();
	closing.push(close);
	for (const colorScheme of ['light', 'dark'] as const) {
		await page.emulateMedia({ colorScheme });
		for (const [width, height] of [
			[1280, 800],
			[390, 844],
		] as const) {
			await page.setViewportSize({ width, height });
			for (const address of ['shelf', 'new', `card/${demo}`, `sheet/${demo}`, `bench/${demo}`, `record/${demo}`]) {
				await page.goto(`${program.address}/#/${address}`);
				await page.getByRole('heading', { level: 1 }).waitFor();
				expect(await axeFaults(page), `${address}, ${colorScheme}, ${width}`).toEqual([]);
				const overflow = await page.evaluate(
					() => document.documentElement.scrollWidth - document.documentElement.clientWidth,
				);
				expect(overflow, `${address} is wider than ${width}`).toBeLessThanOrEqual(0);
			}
		}
	}
	expect(faults).toEqual([]);
});

test('a run is begun, killed in the middle and taken up again with every reading', async () => {
	const data = scratchFolder();
	const program = await startProgram(data);
	const browser = await openBrowser(scratchFolder());
	closing.push(() => browser.close());
	const page = browser.pages()[0] ?? (await browser.newPage());
	await page.goto(`${program.address}/#/bench/${demo}`);
	await page.getByRole('button', { name: 'Begin a run' }).click();

	// Nothing is reached before the gate is passed with meter readings.
	await page.getByRole('button', { name: 'Go on', exact: true }).click();
	await expect.poll(() => page.getByRole('alert').textContent()).toContain('measure and type what the meter said');
	await passGates(page);
	await page.getByRole('button', { name: 'Begin this step' }).click();
	await answerTriage(page);

	// A sick set is not aligned: the way stays closed until triage is worked again and answered otherwise.
	await page.getByLabel('Hum low with the volume down?').selectOption('no');
	await page.getByText('Repair first. A sick set is not aligned').waitFor();
	await page.getByRole('button', { name: 'This step is done' }).click();
	await page.getByRole('heading', { level: 1, name: 'Not yet' }).waitFor();
	expect(await page.getByRole('button', { name: 'Begin this step' }).count()).toBe(0);
	await page.getByRole('button', { name: 'Work triage again' }).click();
	await page.getByText('Not settled').waitFor();
	await answerTriage(page);
	await page.getByText('Full alignment: work the sheet').waitFor();
	expect(await axeFaults(page)).toEqual([]);
	await page.getByRole('button', { name: 'This step is done' }).click();
	for (const title of ['Mark every screw', 'Prepare set']) {
		await page.getByRole('heading', { level: 1, name: title }).waitFor();
		await page.getByRole('button', { name: 'Begin this step' }).click();
		// What is not answered counts as no.
		await page.getByRole('button', { name: 'This step is done' }).click();
		await page.getByText('Not yet. This has to be answered with yes').waitFor();
		await answerPreparation(page);
		await page.getByRole('button', { name: 'This step is done' }).click();
	}
	await page.getByRole('heading', { level: 1, name: 'Before this new contact' }).waitFor();
	await passGates(page);
	await page.getByRole('button', { name: 'Begin this step' }).click();
	await chooseMeter(page, 'typed');
	await page.getByRole('button', { name: 'T2 sec.' }).click();

	// A reading without a unit is refused and stays to be mended.
	await page.getByRole('textbox', { name: 'Reading' }).fill('3');
	await page.keyboard.press('Enter');
	await page.getByRole('alert').waitFor();
	for (const words of ['1.0 V', '2.0 V', '1.5 V']) {
		await page.getByRole('textbox', { name: 'Reading' }).fill(words);
		await page.keyboard.press('Enter');
		await expect.poll(() => page.getByRole('textbox', { name: 'Reading' }).inputValue()).toBe('');
	}
	// 20 log10(2 / 1.5) = 2.499 dB below the best: falling.
	await expect.poll(() => page.locator('.value').textContent()).toContain('2.5');
	expect(await page.locator('.coach').textContent()).toContain('the other way, back to the best');

	await expect.poll(async () => JSON.stringify(await journalOf(program.address))).toContain('1.5 V');
	await program.end('SIGKILL');
	await page.getByRole('textbox', { name: 'Reading' }).fill('1.9 V');
	await page.keyboard.press('Enter');
	// It counts and waits in the browser until the program answers again.
	await expect.poll(() => page.getByRole('textbox', { name: 'Reading' }).inputValue()).toBe('');
	await page.getByText('Not yet kept: 1 reading.').waitFor();

	const again = await startProgram(data, Number(new URL(program.address).port));
	closing.push(() => again.end('SIGTERM'));
	await page.getByText('Not yet kept:').waitFor({ state: 'detached' });
	await page.getByRole('button', { name: 'T2 sec. is set' }).click();
	// The reference with the tool withdrawn leads on to the count.
	await page.getByRole('textbox', { name: 'Reading' }).fill('2.1 V');
	await page.keyboard.press('Enter');
	await page.getByRole('button', { name: '+3/8' }).click();

	await page.reload();
	await page.getByRole('button', { name: /^Run of/ }).click();
	await page.getByRole('heading', { level: 1, name: 'Before you go on' }).waitFor();
	await passGates(page);

	// Warm first, then the last reading once more: another one is told, with what to look at.
	await page.getByRole('heading', { level: 1, name: 'After the pause' }).waitFor();
	expect(await page.getByRole('button', { name: /^Go on/ }).count()).toBe(0);
	await page.getByRole('checkbox', { name: 'Set and generator are warm' }).check();
	await page.getByText('T2 sec. read 2.1 V').waitFor();
	await chooseMeter(page, 'typed');
	await page.getByRole('textbox', { name: 'Reading' }).fill('1.5 V');
	await page.keyboard.press('Enter');
	// 20 log10(2.1 / 1.5) = 2.92 dB.
	await page.getByText('It reads 2.9 dB lower than before the pause').waitFor();
	await page.getByRole('textbox', { name: 'Reading' }).fill('2.1 V');
	await page.keyboard.press('Enter');
	await page.getByText('The reading is as it was left.').waitFor();
	expect(await axeFaults(page)).toEqual([]);
	await page.getByRole('button', { name: 'Go on from here' }).click();
	await page.getByRole('button', { name: 'T2 sec., turned' }).waitFor();
	await page.goto(`${again.address}/#/record/${demo}`);
	await page.getByRole('button', { name: /^Show its/ }).click();
	const record = await page.locator('table').textContent();
	for (const words of ['1.0 V', '2.0 V', '1.5 V', '1.9 V', '2.1 V', 'turned 3/8']) expect(record).toContain(words);
	await page.getByText('Turn it 3/8 turn back the other way, counter-clockwise.').waitFor();
});

test('a set is described, kept and its sheet made; what is wrong is said and what was typed stays', async () => {
	const { page, program, faults, close } = await openPage();
	closing.push(close);
	await page.goto(`${program.address}/#/new`);
	await page.getByLabel('Maker').fill('Copperfield & Daughters');
	await page.getByLabel('Model').fill('<b>38</b>');
	const designed = page.getByRole('group', { name: 'IF as designed 1' });
	await designed.getByLabel('Frequency').fill('465');
	await page.getByRole('button', { name: 'Keep the card' }).click();
	await expect.poll(() => page.getByRole('alert').textContent()).toContain('cannot read a frequency from "465"');
	await designed.getByLabel('Frequency').fill('465 kc/s');
	await page.getByRole('button', { name: 'Keep the card' }).click();
	await page.getByRole('heading', { level: 1, name: 'Alignment of Copperfield & Daughters <b>38</b>' }).waitFor();
	expect(await page.locator('main').textContent()).toContain('465 kc');
	expect(faults.filter((fault) => !fault.includes('422'))).toEqual([]);
});
