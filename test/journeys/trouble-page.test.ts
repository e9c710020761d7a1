import type { Page } from 'playwright-core';
import { afterEach, expect, test } from 'vitest';
import { type TroubleId, troubles } from '../../src/advice/trouble/troubles.ts';
import { createRandom } from '../../src/core/numeric/random.ts';
import { waveFile } from '../wave-file.ts';
import { axeFaults, beginIfStep, journalOf, openBrowser, openPage, scratchFolder, startProgram } from './open-page.ts';

const closing: (() => Promise<void>)[] = [];
afterEach(async () => {
	for (const close of closing.splice(0)) await close();
});

const width = (page: Page) =>
	page.evaluate(() => document.documentElement.scrollWidth - document.documentElement.clientWidth);

/** No fault for screen readers and nothing wider than the window, on a phone in the dark and on a desk in the light. */
async function expectSound(page: Page, what: string): Promise<void> {
	for (const { colorScheme, ...size } of [
		{ colorScheme: 'dark', width: 390, height: 844 },
		{ colorScheme: 'light', width: 1280, height: 800 },
	] as const) {
		await page.emulateMedia({ colorScheme });
		await page.setViewportSize(size);
		expect(await axeFaults(page), `${what}, ${size.width}`).toEqual([]);
		expect(await width(page), `${what}, ${size.width}`).toBeLessThanOrEqual(0);
	}
}

test('every trouble is two acts away, shows a test, and each answer is taken by one tap and taken back by Back', async () => {
	const { page, program, faults, close } = await openPage();
	closing.push(close);
	await page.getByRole('link', { name: 'Trouble', exact: true }).click();
	await page.getByRole('heading', { level: 1, name: 'Trouble' }).waitFor();
	await expectSound(page, 'the list');
	for (const id of Object.keys(troubles) as TroubleId[]) {
		await page.goto(`${program.address}/#/trouble`);
		await page.getByRole('link', { name: troubles[id].words, exact: true }).click();
		await page.getByRole('heading', { level: 1, name: troubles[id].words }).waitFor();
		expect(await page.locator('.outcomes button').count(), id).toBeGreaterThan(1);
	}
	await page.goto(`${program.address}/#/trouble/crackle`);
	const finding = page.locator('.finding');
	const before = await finding.textContent();
	await page.locator('.outcomes button').first().click();
	await page.getByRole('heading', { name: 'Answered' }).waitFor();
	await page.goBack();
	await page.getByRole('heading', { name: 'Answered' }).waitFor({ state: 'detached' });
	expect(await finding.textContent()).toBe(before);
	expect(faults).toEqual([]);
});

test('a typed reading counts, a wrong one is refused, a settled finding says what to do and leads to the part', async () => {
	const { page, program, close } = await openPage();
	closing.push(close);
	await page.goto(`${program.address}/#/trouble/avc-masks`);
	await page.getByLabel('Rise of the reading').fill('2');
	await page.getByRole('button', { name: 'Count it' }).click();
	await expect.poll(() => page.getByRole('alert').textContent()).toContain('dB');
	await page.getByLabel('Rise of the reading').fill('1.5 dB');
	await page.getByRole('button', { name: 'Count it' }).click();
	await page.getByText('For it: Less than 4 dB (1.5 dB)').waitFor();
	await expectSound(page, 'a test');

	await page.goto(`${program.address}/#/trouble/end-of-travel/adjuster-end=if-tight,aim=on,ohms=alike,since=itself`);
	await page.getByRole('heading', { name: 'What to do' }).waitFor();
	await page.getByText('What would change this').waitFor();
	await expectSound(page, 'a finding');
	await page.getByRole('link', { name: 'Work out the part' }).click();
	await page.getByRole('heading', { level: 1, name: 'Fixed capacitor of an IF winding' }).waitFor();
});

test('a leak of the supply stops the work on the page', async () => {
	const { page, program, close } = await openPage();
	closing.push(close);
	await page.goto(`${program.address}/#/trouble/hot-chassis/plug-ohms=leak,volts-each-way=both`);
	await expect.poll(() => page.getByRole('alert').textContent()).toContain('Stop here');
	expect(await page.locator('.outcomes button').count()).toBe(0);
	await expectSound(page, 'a stop');
});

test('what the run of a set already says counts, and a finding is kept in its record', async () => {
	const { page, program, close } = await openPage();
	closing.push(close);
	await beginIfStep(page, program.address);
	await page.getByRole('link', { name: 'Trouble', exact: true }).click();
	await page.getByRole('link', { name: 'Hum in the reading', exact: true }).click();
	// Triage was answered: no crackle, squeal or hum without a signal.
	await page.getByRole('heading', { name: 'From the set\u2019s latest run' }).waitFor();
	await page.locator('.outcomes button').first().click();
	await page.getByRole('button', { name: 'Keep this in the run\u2019s record' }).click();
	await page.getByText('Kept in the run\u2019s record.').waitFor();
	await expect
		.poll(async () => (await journalOf(program.address)).map(({ what }) => what.kind))
		.toEqual(expect.arrayContaining(['test answered', 'note']));
});

// [helfrick-cooper] ex. 6-4: 20 pF and 13.19 uH from 2 Mc with 460 pF and 4 Mc with 100 pF.
test('a part is asked for by a form, answered, and what is missing is named', async () => {
	const { page, program, faults, close } = await openPage();
	closing.push(close);
	await page.getByRole('link', { name: 'Parts' }).click();
	await page.getByRole('heading', { level: 1, name: 'Parts' }).waitFor();
	await expectSound(page, 'the parts');
	await page.getByRole('link', { name: 'Inductance and self-capacity by two resonances' }).click();
	await page.getByRole('button', { name: 'Work it out' }).click();
	await expect.poll(() => page.getByRole('alert').textContent()).toContain('Frequency and capacitor, twice');
	await page.getByLabel('Frequency and capacitor, twice').fill('4Mc@100mmf,2Mc@460mmf');
	await page.getByRole('button', { name: 'Work it out' }).click();
	await expect.poll(() => page.locator('dl').textContent()).toMatch(/13\.\d* ± 0\.\d* uH.*20 ± 2 mmf/s);
	await expectSound(page, 'an answer');
	await page.goto(`${program.address}/#/parts/mica`);
	for (const [name, value] of [
		['IF', '455kc'],
		['Inductance of the winding', '1.1mH'],
		['Strays across it', '15mmf'],
		['Range of its trimmer', '5mmf-45mmf'],
	] as const)
		await page.getByLabel(name, { exact: true }).fill(value);
	await page.getByRole('button', { name: 'Work it out' }).click();
	await page.getByText(/^yes, with/).waitFor();
	expect(faults).toEqual([]);
});

test('a crackle is heard by the page\u2019s microphone and counted by one tap', async () => {
	const rateHz = 48_000;
	const random = createRandom(3);
	const samples = Array.from({ length: 8 * rateHz }, () => 1e-3 * random.gaussian());
	// Fifteen clicks in eight seconds, at uneven places.
	for (let k = 0; k < 15; k++) samples[Math.round((0.2 + 0.5 * k + 0.2 * random.uniform()) * rateHz)] = 0.3;
	const program = await startProgram(scratchFolder());
	closing.push(() => program.end('SIGTERM'));
	const browser = await openBrowser(scratchFolder(), [
		'--use-fake-ui-for-media-stream',
		'--use-fake-device-for-media-stream',
		`--use-file-for-fake-audio-capture=${waveFile(samples, rateHz)}`,
	]);
	closing.push(() => browser.close());
	const page = browser.pages()[0] ?? (await browser.newPage());
	await page.goto(`${program.address}/#/trouble/crackle/since=unknown`);
	if ((await page.getByRole('button', { name: 'Listen with the microphone' }).count()) === 0) {
		await page.getByText('Another test').click();
		await page.getByRole('button', { name: 'Turn the generator down to nothing' }).click();
	}
	await page.getByRole('button', { name: 'Listen with the microphone' }).click();
	await page.getByText(/clicks a minute/).waitFor();
	expect(await axeFaults(page)).toEqual([]);
	await page.getByRole('button', { name: 'Count it' }).click();
	await page.getByRole('heading', { name: 'Answered' }).waitFor();
	expect(page.url()).toContain('silence=crackle');
});
