import { afterEach, expect, test } from 'vitest';
import { axeFaults, openPage } from './open-page.ts';
import { nameRuns, nudge, numberIn, openResponse, readAll, reads } from './response-page.ts';

const closing: (() => Promise<void>)[] = [];
afterEach(async () => {
	for (const close of closing.splice(0)) await close();
});

test('a hand sweep is judged at the input once the AVC law was measured, the person chooses, and the marks stay what the meter shows', async () => {
	const { page, program, faults, close } = await openPage();
	closing.push(close);
	await nameRuns(page, 'whinchat');
	await openResponse(page, program.address);
	await page.getByRole('button', { name: 'Begin the sweep' }).click();
	await page.getByText('Meter, way of reading, file').click();
	await page.getByRole('checkbox', { name: /kept at one reading/ }).uncheck();
	await page.getByRole('button', { name: 'Keep this point' }).click();
	await page.getByText('Decibels at the output.').waitFor();
	await page.getByText('AVC law: not measured').click();
	await page.getByLabel('Steps of').selectOption('5 dB');
	await page.getByRole('button', { name: 'By itself' }).click();
	await page.getByText('AVC law: known, readings count at the input').waitFor({ timeout: 120_000 });
	await readAll(page);
	await page.getByText('Decibels at the input: AVC is taken out by the AVC law measured today.').waitFor();
	const width = async (): Promise<number> =>
		Number(/([\d.]+) \u00b1/.exec((await page.getByRole('row', { name: /^6 dB width/ }).textContent()) ?? '')?.[1]);
	// The answer to the last point may still be reckoned: until it has stood for a second it is none.
	let atInput = Number.NaN;
	await expect
		.poll(
			async () => {
				const before = atInput;
				atInput = await width();
				return atInput === before;
			},
			{ interval: 1000, timeout: 20_000 },
		)
		.toBe(true);
	expect(await axeFaults(page)).toEqual([]);
	await page.getByRole('radio', { name: 'at the output, as read' }).check();
	await page.getByText('Decibels at the output, as read.').waitFor();
	// AVC flattens the top: the bare curve is the wider one.
	await expect.poll(width, { timeout: 20_000 }).toBeGreaterThan(1.05 * atInput);
	await page.getByRole('radio', { name: 'at the input, AVC taken out' }).check();
	await expect.poll(width, { timeout: 20_000 }).toBe(atInput);

	await nudge(page, 'T2 sec.');
	await nudge(page, 'T1 pri.');
	const act = page.getByRole('listitem').filter({ hasText: 'the meter should read' });
	await act.waitFor({ timeout: 30_000 });
	// At the input the mark would be tens of decibels away.
	const foretold = numberIn(await act.textContent(), /should read (-?[\d.]+) dB/);
	expect(Math.abs((await reads(page, 'Read here')) - foretold)).toBeLessThan(1);
	expect(faults).toEqual([]);
}, 240_000);
