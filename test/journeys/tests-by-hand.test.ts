import { afterEach, expect, test } from 'vitest';
import { tuningAtMark, valuesAt } from '#core/receiver/bench-set.ts';
import { tm517 } from '#core/receiver/designs/tm-517.ts';
import { SteadyState } from '#core/receiver/operating-point.ts';
import { receivedHz } from '#core/receiver/sensitivity.ts';
import { SetStream } from '#core/receiver/set-stream.ts';
import { standardTone } from '#core/receiver/signal.ts';
import { oscillatorHz, type SetValues } from '#core/receiver/values.ts';
import { outputSound } from '#core/signal/output-sound.ts';
import { setAsFound } from '#rehearsal/practice.ts';
import { journalOf, nameNextRun, openPage, passGates } from './open-page.ts';

const closing: (() => Promise<void>)[] = [];
afterEach(async () => {
	for (const close of closing.splice(0)) await close();
});

const run = 'tests-by-hand-1';

/** Distortion of the standard tone by the circuits, stepped four times as finely as the page does. */
function distortionShare(values: SetValues, frequencyHz: number): number {
	const rateHz = 192e3;
	const stream = new SetStream(values, [{ ...standardTone, frequencyHz, levelV: 1e-3, into: 'antenna' }], rateHz, 1);
	stream.fill(new Float64Array(0.6 * rateHz));
	const samples = new Float64Array(0.5 * rateHz);
	stream.fill(samples);
	return outputSound(samples, rateHz, standardTone.toneHz).distortionShare ?? Number.NaN;
}

test('distortion, audio response, hum and oscillator are read by hand on the virtual bench, as its circuits have them', async () => {
	const { page, program, faults, close } = await openPage();
	closing.push(close);
	await page.goto(`${program.address}/#/tests/thistlemoor-tm-517`);
	await page.getByRole('button', { name: 'Begin a run' }).waitFor();
	await nameNextRun(page, run);
	await page.getByRole('button', { name: 'Begin a run' }).click();
	await page.getByRole('checkbox', { name: 'Distortion can be read' }).check();
	await page.getByRole('button', { name: 'Read with this' }).click();
	await page.getByRole('button', { name: 'Go on', exact: true }).waitFor();
	await passGates(page);
	await page.locator('summary', { hasText: 'Read it by hand' }).click();
	const found = setAsFound(tm517, run, null);
	const frequencyHz = Math.round(receivedHz(found, 1e6) / 100) * 100;
	const volume = 0.04;
	const standing = (dialHz: number) => valuesAt(found, tuningAtMark(found, dialHz), volume);

	const type = async (name: RegExp, words: string) => {
		await page.getByRole('textbox', { name }).fill(words);
		await page.keyboard.press('Enter');
	};
	const take = async () => {
		await page.locator('.shows').getByText('Meter:').waitFor();
		await page.getByRole('button', { name: 'Take what is shown' }).click();
		await page.getByRole('button', { name: 'Keep the reading' }).click();
	};
	const open = (title: RegExp) =>
		page.getByRole('navigation', { name: 'The standard tests' }).getByRole('button', { name: title }).click();
	await type(/^Pointer on/, '1,000 kc');
	await type(/^It gives/, `${(frequencyHz / 1e3).toFixed(1)} kc`);
	await type(/^Attenuator at/, '1 mV');
	await page.getByLabel('Volume control of the set').fill(String(volume));
	await open(/^Distortion/);
	await take();
	await open(/^Audio response/);
	await page.getByText('Output at 400 c').first().waitFor();
	await take();
	await page.getByLabel(/^Tone/).selectOption('100');
	await take();
	await open(/^Oscillator/);
	await type(/^Pointer on/, '540 kc');
	await take();
	await open(/^Hum/);
	await page.getByRole('combobox', { name: /^Lead to/ }).selectOption('off the set');
	await page.getByLabel('Volume control of the set').fill('0');
	await take();
	await page.getByText('Hum, volume down').first().waitFor();

	let entries = await journalOf(program.address);
	const read = (ask: string): number =>
		entries.flatMap(({ what }) => (what.kind === 'test reading' && what.ask === ask ? [what.value] : [])).at(-1) ??
		Number.NaN;
	// The last reading may still be on its way.
	await expect
		.poll(async () => {
			entries = await journalOf(program.address);
			return read('hum full up');
		})
		.toBeLessThan(5e-3);
	expect(Math.abs(read('distortion') / distortionShare(standing(1e6), frequencyHz) - 1)).toBeLessThan(0.15);
	const toneV = (toneHz: number): number =>
		new SteadyState(standing(1e6)).operatingPoint({
			frequencyHz,
			...standardTone,
			toneHz,
			levelV: 1e-3,
			into: 'antenna',
		}).toneV;
	const readDb = 20 * Math.log10(read('audio 100 c') / read('audio 400 c'));
	expect(Math.abs(readDb - 20 * Math.log10(toneV(100) / toneV(400)))).toBeLessThan(0.3);
	expect(Math.abs(read('oscillator 540 kc') - oscillatorHz(standing(540e3)))).toBeLessThan(100);
	expect(faults).toEqual([]);
}, 120_000);
