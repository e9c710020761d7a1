import { afterEach, expect, test } from 'vitest';
import { openBrowser, openPage, scratchFolder, startProgram } from './open-page.ts';

const closing: (() => Promise<unknown>)[] = [];
afterEach(async () => {
	for (const close of closing.splice(0).reverse()) await close();
});

test('no screen breaks the policy, and what breaks it is not done', async () => {
	const { page, program, faults, close } = await openPage();
	closing.push(close);
	await page.addInitScript(() => {
		Object.assign(globalThis, { broken: [] as string[] });
		addEventListener('securitypolicyviolation', ({ violatedDirective, blockedURI }) =>
			(globalThis as unknown as { broken: string[] }).broken.push(`${violatedDirective} ${blockedURI}`),
		);
	});
	const broken = (): Promise<string[]> => page.evaluate(() => (globalThis as unknown as { broken: string[] }).broken);
	await page.reload();
	const set = 'thistlemoor-tm-517';
	for (const place of [
		'shelf',
		'new',
		'practice',
		'trouble',
		'parts/mica',
		'handbook',
		'handbook/theory',
		...['card', 'sheet', 'bench', 'response', 'dial', 'tests', 'record'].map((screen) => `${screen}/${set}`),
	]) {
		await page.goto(`${program.address}/#/${place}`);
		await page.getByRole('heading', { level: 1 }).first().waitFor();
		expect(await broken(), place).toEqual([]);
	}
	expect(faults).toEqual([]);

	await page.evaluate(() => {
		const script = document.createElement('script');
		script.textContent = 'globalThis.struck = 1';
		const picture = new Image();
		picture.src = 'http://127.0.0.1:9/x.png';
		document.body.append(script, picture);
		document.body.insertAdjacentHTML(
			'beforeend',
			'<p id="styled" style="position: fixed" onclick="globalThis.struck = 1">x</p>',
		);
		document.getElementById('styled')?.click();
		fetch('http://127.0.0.1:9/').catch(() => undefined);
	});
	await expect
		.poll(async () => new Set((await broken()).map((one) => one.split(' ')[0])))
		.toEqual(new Set(['script-src-elem', 'script-src-attr', 'style-src-attr', 'img-src', 'connect-src']));
	expect(await page.evaluate(() => 'struck' in globalThis)).toBe(false);
	expect(await page.evaluate(() => getComputedStyle(document.getElementById('styled') as HTMLElement).position)).toBe(
		'static',
	);
});

test('a page that stays open goes on when the program is started again', async () => {
	const data = scratchFolder();
	const first = await startProgram(data);
	const context = await openBrowser(scratchFolder());
	closing.push(() => context.close());
	const page = context.pages()[0] ?? (await context.newPage());
	await page.goto(`${first.address}/#/shelf`);
	await page
		.getByRole('link', { name: /TM-517/ })
		.first()
		.waitFor();
	await first.end('SIGTERM');
	// A screen that was not fetched before says what is the matter.
	await page.goto(`${first.address}/#/handbook`);
	await page.getByRole('alert').getByText('Peakwright does not answer').waitFor();
	const again = await startProgram(data, Number(new URL(first.address).port));
	closing.push(() => again.end('SIGTERM'));
	expect(again.address).toBe(first.address);
	await page.goto(`${first.address}/#/sheet/thistlemoor-tm-517`);
	await page.getByRole('heading', { level: 1 }).waitFor();
	await page.goto(`${first.address}/#/handbook`);
	await page.getByRole('heading', { level: 1, name: 'Handbook' }).waitFor();
});
