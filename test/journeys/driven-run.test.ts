import { afterEach, expect, test } from 'vitest';
import { servePanel } from '../../src/cli/panel-server.ts';
import { tm517 } from '../../src/core/receiver/designs/tm-517.ts';
import { tamperedSet } from '../../src/core/receiver/truth.ts';
import { virtualInstruments } from '../../src/instruments/virtual/virtual-instruments.ts';
import { VirtualSet } from '../../src/instruments/virtual/virtual-set.ts';
import { axeFaults, journalOf, openPage, passGates } from './open-page.ts';

const closing: (() => Promise<void>)[] = [];
afterEach(async () => {
	for (const close of closing.splice(0)) await close();
});

/** Generator and meter of a tampered virtual set on a port; readings take their time on the set's own clock only. */
async function servedSet() {
	let aheadMs = 0;
	const panel = virtualInstruments(new VirtualSet(tamperedSet(tm517, 7), 7, null), () => Date.now() + aheadMs);
	panel.line('HAND:VOL 10');
	const line = panel.line.bind(panel);
	panel.line = (text) => {
		const { reply, tookMs } = line(text);
		aheadMs += tookMs;
		return { reply, tookMs: 0 };
	};
	const served = await servePanel(panel, 0);
	if (!served.ok) throw new Error(served.words);
	closing.push(() => served.value.stop());
	return { place: `127.0.0.1:${served.value.port}`, isOn: () => line('OUTP?').reply === '1' };
}

test('instruments are named and tried, sweep the IF by themselves through pause and reload, and the curve stands on the page', async () => {
	const { place, isOn } = await servedSet();
	const { page, program, faults, close } = await openPage();
	closing.push(close);

	await page.getByRole('link', { name: 'Instruments' }).click();
	for (const name of ['Generator', 'Meter']) {
		const form = page.locator('section', { has: page.getByRole('heading', { name, exact: true }) });
		await form.getByLabel('Place').fill(place);
		await form.getByRole('button', { name: 'Who is there?' }).click();
		await form.getByText('PEAKWRIGHT,VIRTUAL').waitFor();
	}
	await page.getByRole('button', { name: 'Send: output on, and off again' }).click();
	await page.getByText('taken').waitFor();
	expect(isOn()).toBe(false);
	await page.getByRole('button', { name: 'Send: read volts' }).click();
	await page.getByText('answered 9.91E37').waitFor();
	expect(await axeFaults(page)).toEqual([]);

	await page.goto(`${program.address}/#/response/thistlemoor-tm-517`);
	await page.getByRole('button', { name: 'Begin a run' }).click();
	await page.getByRole('button', { name: 'Go on', exact: true }).waitFor();
	await passGates(page);
	await page.getByText('By itself, with instruments').click();
	await page.getByRole('button', { name: 'Sweep the curve' }).click();
	const work = page.getByRole('region', { name: 'Instruments at work' });
	await work.getByText(/\d kc at /).waitFor();
	await expect.poll(isOn).toBe(true);
	await work.getByRole('button', { name: 'Pause' }).click();
	await work.getByText('paused, output off').waitFor();
	expect(isOn()).toBe(false);
	expect(await axeFaults(page)).toEqual([]);
	await page.reload();
	await work.getByRole('button', { name: 'Nothing was touched: go on' }).click();
	await work.getByText('Done: 1 curve in the run.').waitFor({ timeout: 60_000 });
	expect(isOn()).toBe(false);

	await page.getByRole('button', { name: /^Run of/ }).click();
	await page.getByRole('button', { name: 'Go on', exact: true }).waitFor();
	await passGates(page);
	await page.getByRole('heading', { name: 'Response, as it stands' }).waitFor();
	await page.getByText('Meter, way of reading, file').click();
	await page.getByRole('combobox', { name: 'Meter' }).selectOption('driven meter');
	await page.getByText(`at ${place}`).first().waitFor();
	const entries = await journalOf(program.address);
	const swept = entries.filter(({ what }) => what.kind === 'swept reading');
	const curve = entries.flatMap(({ what }) => (what.kind === 'sweep file' ? what.points : []));
	expect(swept.length).toBeGreaterThan(2 * curve.length);
	expect(await page.locator('svg circle').count()).toBeGreaterThanOrEqual(curve.length);
	expect(entries.map(({ order }) => order)).toEqual(entries.map((_, place) => place));
	expect(faults).toEqual([]);
}, 180_000);
