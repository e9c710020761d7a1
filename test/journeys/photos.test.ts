import { mkdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterEach, expect, test } from 'vitest';
import type { Photo } from '../../src/record/photo.ts';
import { photoFile } from '../photo-file.ts';
import { axeFaults, beginIfStep, openPage, scratchFolder } from './open-page.ts';

const closing: (() => Promise<void>)[] = [];
afterEach(async () => {
	for (const close of closing.splice(0).reverse()) await close();
});
const shots = process.env.PEAKWRIGHT_SHOTS;

test('a photograph is added, adjusters get their numbers by a tap and by keys, one is renamed, and a wrong file is refused', async () => {
	const { page, program, faults, close } = await openPage();
	closing.push(close);
	const folder = scratchFolder();
	const photo = join(folder, 'top.jpg');
	writeFileSync(photo, await photoFile(1200, 900));
	const drawing = join(folder, 'drawing.jpg');
	writeFileSync(drawing, '<svg xmlns="http://www.w3.org/2000/svg"/>');
	await page.goto(`${program.address}/#/photos/thistlemoor-tm-517`);
	await page.locator('input[type=file]').setInputFiles([photo, drawing]);
	await page.getByText('drawing.jpg: this is a drawing (SVG)').waitFor();
	const kept = async (): Promise<Photo | undefined> => {
		const answer = await fetch(`${program.address}/api/sets/thistlemoor-tm-517/photos`);
		return ((await answer.json()) as { photos: Photo[] }).photos[0];
	};
	await page.getByLabel('Adjuster in hand').selectOption('if2-secondary');
	const picture = page.getByRole('button', { name: /^Place of T2 sec\./ });
	const box = await picture.boundingBox();
	if (!box) throw new Error('the photograph is not drawn');
	await picture.click({ position: { x: 0.25 * box.width, y: 0.75 * box.height } });
	await expect.poll(async () => (await kept())?.places.length).toBe(1);
	const [place] = (await kept())?.places ?? [];
	expect(place?.x).toBeCloseTo(0.25, 2);
	expect(place?.y).toBeCloseTo(0.75, 2);
	// The next one that has no place is in hand; keys put it in the middle and move it.
	const next = page.getByRole('button', { name: /^Place of T2 pri\./ });
	await next.focus();
	await page.keyboard.press('ArrowRight');
	await expect.poll(async () => (await kept())?.places[1]?.x).toBeCloseTo(0.51, 3);
	await page.getByLabel('Caption').fill('From above');
	await page.getByLabel('Caption').blur();
	await expect.poll(async () => (await kept())?.caption).toBe('From above');
	expect(await axeFaults(page)).toEqual([]);
	if (shots) {
		mkdirSync(shots, { recursive: true });
		for (const [name, width, scheme] of [
			['desk-light', 1280, 'light'],
			['phone-dark', 390, 'dark'],
		] as const) {
			await page.emulateMedia({ colorScheme: scheme });
			await page.setViewportSize({ width, height: width > 400 ? 800 : 844 });
			await page.screenshot({ path: join(shots, `photos-${name}.png`), fullPage: width < 400 });
		}
	}
	await page.getByLabel('Its name').fill('T2 secondary');
	await page.getByLabel('Its name').blur();
	await page.getByText('2 T2 secondary').first().waitFor({ state: 'attached' });
	await page.getByRole('button', { name: 'Take this photograph away' }).click();
	await page.getByRole('button', { name: 'Take it away' }).click();
	await page.getByText('Here stand the chassis').waitFor();
	expect(await kept()).toBeUndefined();
	expect(faults.filter((fault) => !fault.includes('422'))).toEqual([]);
});

test('the bench shows the plan over the photograph that the person chose, and keeps to it', async () => {
	const { page, program, faults, close } = await openPage();
	closing.push(close);
	const photos = `${program.address}/api/sets/thistlemoor-tm-517/photos`;
	for (const [view, adjuster] of [
		['top', 'if2-secondary'],
		['under', 'wave-trap'],
	]) {
		const answer = await fetch(photos, { method: 'POST', body: new Uint8Array(await photoFile(800, 600)) });
		const { photo } = (await answer.json()) as { photo: Photo };
		const words = { view, moment: 'any time', caption: '', places: [{ adjuster, x: 0.3, y: 0.6 }] };
		await fetch(`${program.address}/api/photos/${photo.id}`, { method: 'PUT', body: JSON.stringify(words) });
	}
	await beginIfStep(page, program.address);
	const plans = page.getByRole('group', { name: 'Chassis plan' });
	await plans.getByRole('button', { name: 'Drawn plan', pressed: true }).waitFor();
	await plans.getByRole('button', { name: 'Chassis from below' }).click();
	await page.getByRole('img', { name: 'Chassis from below, with 1 numbered adjusters' }).waitFor();
	await page.getByRole('button', { name: 'T2 sec.' }).click();
	await page.getByText('Number 1 is not on this photograph; see Chassis from above.').waitFor();
	await plans.getByRole('button', { name: 'Chassis from above' }).click();
	await expect.poll(() => page.locator('.tag.active').count()).toBe(1);
	expect(await axeFaults(page)).toEqual([]);
	if (shots) {
		mkdirSync(shots, { recursive: true });
		for (const [width, height, scheme] of [
			[1280, 800, 'light'],
			[390, 844, 'dark'],
		] as const) {
			await page.emulateMedia({ colorScheme: scheme });
			await page.setViewportSize({ width, height });
			await page.screenshot({ path: join(shots, `plan-${width}-${scheme}.png`), fullPage: width < 400 });
		}
	}
	// Taken up again, the run shows the same plan: behind the gate, as before the pause.
	expect(await page.evaluate(() => localStorage.getItem('plan of thistlemoor-tm-517'))).not.toBeNull();
	expect(faults).toEqual([]);
});

test('a set is found on the shelf by its tubes, and one from another shelf is taken in from its file', async () => {
	const { page, program, faults, close } = await openPage();
	closing.push(close);
	const list = page.locator('main li');
	await expect.poll(() => list.count()).toBeGreaterThan(1);
	const find = page.getByRole('searchbox');
	await find.fill('12sa7 455 kc 1947');
	await expect.poll(() => list.count()).toBe(1);
	await page.getByText('Thistlemoor Wireless Company TM-517').waitFor();
	// A set goes out from its record, also before its first run.
	const archive = join(scratchFolder(), 'one.zip');
	await page.goto(`${program.address}/#/record/thistlemoor-tm-517`);
	const download = page.waitForEvent('download');
	await page.getByRole('link', { name: 'This set with its runs, photographs and reports as one file' }).click();
	await (await download).saveAs(archive);
	await page.goto(program.address);
	await find.fill('12sa7 455 kc 1947');
	await expect.poll(() => list.count()).toBe(1);
	await page.locator('input[type=file]').setInputFiles(archive);
	await page.getByText('1 set taken in. New here: 0 versions of cards').waitFor();
	expect(await find.inputValue()).toBe('');
	writeFileSync(archive, 'no archive');
	await page.locator('input[type=file]').setInputFiles(archive);
	await page
		.getByText(
			'it is cut short, damaged, or no archive, which is a .zip file that Peakwright wrote; a card alone (.json) is taken in where a set is described. Nothing was changed.',
		)
		.waitFor();
	expect(await axeFaults(page)).toEqual([]);
	if (shots) await page.screenshot({ path: join(shots, 'shelf-desk-light.png') });
	expect(faults.filter((fault) => !fault.includes('422'))).toEqual([]);
});
