import { afterEach, expect, test } from 'vitest';
import { servePanel } from '../../src/cli/panel-server.ts';
import { tm517 } from '../../src/core/receiver/designs/tm-517.ts';
import { tamperedSet } from '../../src/core/receiver/truth.ts';
import { virtualInstruments } from '../../src/instruments/virtual/virtual-instruments.ts';
import { VirtualSet } from '../../src/instruments/virtual/virtual-set.ts';
import { axeFaults, beginIfStep, openPage } from './open-page.ts';

const closing: (() => Promise<void>)[] = [];
afterEach(async () => {
	for (const close of closing.splice(0)) await close();
});

test('the AVC law is stepped out by itself, the coach then counts at the input, and another run asks for a 6 dB step first', async () => {
	const { page, program, faults, close } = await openPage();
	closing.push(close);
	await beginIfStep(page, program.address);
	await page.getByText('AVC law: not measured').click();
	await page.getByLabel('Steps of').selectOption('6 dB');
	await page.getByRole('button', { name: 'By itself' }).click();
	await page.getByText('AVC law: being measured').waitFor();
	await page.getByText('AVC law: known, readings count at the input').waitFor({ timeout: 90_000 });
	expect(await axeFaults(page)).toEqual([]);

	await page.getByRole('button', { name: 'T2 sec.' }).click();
	await page.getByText('Settled. Press the big key, then turn').waitFor({ timeout: 20_000 });
	await page.getByText('Decibels at the input: AVC is taken out by the AVC law measured today.').waitFor();
	await page.keyboard.press(' ');
	await page.getByText('the best, at the input').waitFor();
	await page.getByRole('button', { name: 'T2 sec. is set' }).click();
	await page.getByText('Settled. Press the big key.').waitFor();
	await page.keyboard.press(' ');
	await page.getByRole('button', { name: '+1/8', exact: true }).click();

	await page.goto(`${program.address}/#/record/thistlemoor-tm-517`);
	await page.getByRole('button', { name: /^Show its/ }).click();
	await page
		.getByText(/^AVC law, .* dB$/)
		.first()
		.waitFor();

	// Another run knows it, and shows the output until a step of 6 dB has come out right.
	await beginIfStep(page, program.address);
	await page.getByText('AVC law: known, to be tried').waitFor();
	expect(faults).toEqual([]);
}, 180_000);

test('a step of the bench sets the driven generator by one key, asks before it rises far, and leaves it off with the step', async () => {
	const panel = virtualInstruments(new VirtualSet(tamperedSet(tm517, 7), 7, null), Date.now);
	const served = await servePanel(panel, 0);
	if (!served.ok) throw new Error(served.words);
	closing.push(() => served.value.stop());
	const { page, program, faults, close } = await openPage();
	closing.push(close);
	const says = (line: string): string | null => panel.line(line).reply;
	await page.goto(program.address);
	await page.evaluate(async (place) => {
		const headers = { 'Content-Type': 'application/json' };
		const instrument = JSON.stringify({ place, description: null });
		await fetch('/api/instruments/generator', { method: 'PUT', headers, body: instrument });
		// The demo set as a real one.
		const { card } = (await (await fetch('/api/sets/thistlemoor-tm-517')).json()) as { card: Record<string, unknown> };
		delete card.virtualSet;
		await fetch('/api/sets/thistlemoor-tm-517', { method: 'PUT', headers, body: JSON.stringify(card) });
	}, `127.0.0.1:${served.value.port}`);
	await page.reload();
	await beginIfStep(page, program.address);
	const gear = page.getByRole('region', { name: 'Generator' });
	await gear.getByText('is set from here: 455 kc, 30 % at 400 c.').waitFor();
	expect(says('OUTP?')).toBe('0');
	await page.keyboard.press('g');
	await gear.getByText('On: 455 kc, 1 mV.').waitFor();
	expect([says('OUTP?'), Number(says('FREQ?')), says('SYST:ERR?')]).toEqual(['1', 455e3, '0,"No error"']);
	expect(await axeFaults(page)).toEqual([]);
	await gear.getByRole('button', { name: 'Output off' }).click();
	await gear.getByText('Its output is off.').waitFor();
	expect(says('OUTP?')).toBe('0');
	await page.keyboard.press('g');
	await gear.getByText('On: 455 kc, 1 mV.').waitFor();
	await gear.getByLabel('Level, open circuit').fill('100 mV');
	await page.keyboard.press('Enter');
	await gear.getByText(/40 dB more than 1 mV, at once/).waitFor();
	await gear.getByRole('button', { name: 'No', exact: true }).click();
	await gear.getByText('On: 455 kc, 1 mV.').waitFor();
	await page.getByRole('button', { name: 'This step is done' }).click();
	await expect.poll(() => says('OUTP?')).toBe('0');
	expect(faults).toEqual([]);
});
