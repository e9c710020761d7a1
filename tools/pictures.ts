/** Makes the pictures of the documentation from the running page: docs/pictures/*.png. */
import { execFileSync } from 'node:child_process';
import { mkdirSync } from 'node:fs';
import { join } from 'node:path';
import { beginIfStep, chooseMeter, openPage, passGates } from '../test/journeys/open-page.ts';
import { drawnChassis } from './drawn-chassis.ts';
import { photographReport } from './report-pictures.ts';

const folder = process.argv[2] ?? 'docs/pictures';
const sizes = [
	{ name: 'desk', width: 1280, height: 800 },
	{ name: 'phone', width: 390, height: 844 },
] as const;
const screens = [
	{ name: 'shelf', address: '#/shelf' },
	{ name: 'card', address: '#/card/thistlemoor-tm-517' },
	{ name: 'sheet', address: '#/sheet/thistlemoor-tm-517' },
	{ name: 'practice', address: '#/practice/blunt-peak' },
	{ name: 'trouble', address: '#/trouble/weak/three-points=alike,adjuster-dead=all' },
] as const;

mkdirSync(folder, { recursive: true });
const { page, program, close } = await openPage();

/** Puts down the run in hand: the shelf has to be seen before the next one is begun. */
async function putDown(): Promise<void> {
	await page.goto(`${program.address}/#/shelf`);
	await page.getByRole('heading', { level: 1, name: 'Shelf' }).waitFor();
}

/** The gate before the first contact. */
async function photographGate(size: string, colorScheme: string): Promise<void> {
	await putDown();
	await page.goto(`${program.address}/#/bench/thistlemoor-tm-517`);
	await page.getByRole('button', { name: 'Begin a run' }).click();
	await page.getByRole('button', { name: 'Go on', exact: true }).waitFor();
	await page.screenshot({ path: join(folder, `gate-${size}-${colorScheme}.png`) });
}

/** The bench with three readings typed while the first IF adjuster is turned. */
async function photographBench(size: string, colorScheme: string): Promise<void> {
	await putDown();
	await beginIfStep(page, program.address);
	await chooseMeter(page, 'typed');
	await page.getByRole('button', { name: 'T2 sec.' }).click();
	for (const words of ['1.0 V', '2.0 V', '1.5 V']) {
		await page.getByRole('textbox', { name: 'Reading' }).fill(words);
		await page.keyboard.press('Enter');
		await page.getByText(words).waitFor();
	}
	await page.screenshot({ path: join(folder, `bench-${size}-${colorScheme}.png`) });
	await chooseMeter(page, 'virtual set');
	// The typed readings go from the screen with the first reading of the virtual set.
	await page.getByText('1.5 V').waitFor({ state: 'detached' });
	await page.waitForTimeout(1500);
	await page.screenshot({ path: join(folder, `virtual-${size}-${colorScheme}.png`), fullPage: true });
}

/** The dial with seven marks read: who is at fault and what to do. */
async function photographDial(size: string, colorScheme: string): Promise<void> {
	await putDown();
	await page.goto(`${program.address}/#/dial/thistlemoor-tm-517`);
	await page.getByRole('button', { name: 'Begin a run' }).click();
	await page.getByRole('button', { name: 'Go on', exact: true }).waitFor();
	await passGates(page);
	await page.getByRole('button', { name: 'Keep', exact: true }).click();
	const field = page.getByRole('textbox', { name: 'Comes in' });
	for (const words of ['538.5 kc', '597.6 kc', '695.5 kc', '793 kc', '986 kc', '1177 kc', '1552 kc']) {
		await field.waitFor();
		const mark = (await page.locator('.sit strong').first().textContent()) as string;
		await field.fill(words);
		await page.keyboard.press('Enter');
		await page.getByRole('button', { name: `${mark}, read` }).waitFor();
	}
	await page.screenshot({ path: join(folder, `dial-${size}-${colorScheme}.png`), fullPage: true });
}

/** Two pages of the printed sheet, as paper shows them. */
async function photographPaper(): Promise<void> {
	const pdf = await fetch(`${program.address}/api/sets/thistlemoor-tm-517/sheet.pdf?paper=A4`);
	for (const number of ['1', '3']) {
		execFileSync(
			'pdftoppm',
			['-r', '72', '-png', '-gray', '-singlefile', '-f', number, '-l', number, '-', join(folder, `paper-${number}`)],
			{ input: Buffer.from(await pdf.clone().arrayBuffer()), stdio: ['pipe', 'ignore', 'ignore'] },
		);
	}
}

/** A base sweep of the virtual set with what it says. */
async function photographResponse(size: string, colorScheme: string): Promise<void> {
	await putDown();
	await page.goto(`${program.address}/#/response/thistlemoor-tm-517`);
	await page.getByRole('button', { name: 'Begin a run' }).click();
	await page.getByRole('button', { name: 'Go on', exact: true }).waitFor();
	await passGates(page);
	await page.getByRole('button', { name: 'Begin the sweep' }).click();
	await page.getByRole('button', { name: 'Read them all' }).click();
	await page.getByText('enough for this sweep').waitFor();
	await page.getByText('One sweep cannot tell').waitFor();
	await page.screenshot({ path: join(folder, `response-${size}-${colorScheme}.png`) });
}

/** A padder worked out. */
async function photographPart(size: string, colorScheme: string): Promise<void> {
	await page.goto(`${program.address}/#/parts/padder`);
	for (const [label, words] of [
		['Band', '540kc-1600kc'],
		['IF', '455kc'],
		['Gang, one section', '365mmf'],
	] as const)
		await page.getByLabel(label, { exact: true }).fill(words);
	await page.getByRole('button', { name: 'Work it out' }).click();
	await page.getByRole('heading', { name: 'For the sheet' }).waitFor();
	await page.screenshot({ path: join(folder, `parts-${size}-${colorScheme}.png`) });
}

let isPhotographed = false;
/** A chassis with two adjusters' numbers on it, the third in hand. */
async function photographPhotos(size: string, colorScheme: string): Promise<void> {
	await page.goto(`${program.address}/#/photos/thistlemoor-tm-517`);
	await page.getByRole('heading', { level: 1, name: 'Photographs' }).waitFor();
	const picture = page.locator('button.tap');
	if (!isPhotographed) {
		isPhotographed = true;
		await page
			.locator('input[type=file]')
			.setInputFiles({ name: 'chassis.jpg', mimeType: 'image/jpeg', buffer: await drawnChassis() });
		for (const [x, y] of [
			[0.5, 0.5],
			[855 / 1200, 265 / 900],
			[795 / 1200, 265 / 900],
		] as const) {
			const numbers = await page.locator('.tag').count();
			const box = await picture.boundingBox();
			if (!box) throw new Error('the photograph is not drawn');
			await picture.click({ position: { x: x * box.width, y: y * box.height } });
			if (x !== 0.5) await page.waitForFunction((count) => document.querySelectorAll('.tag').length > count, numbers);
		}
	} else await picture.click();
	await page.screenshot({ path: join(folder, `photos-${size}-${colorScheme}.png`) });
}

try {
	await photographPaper();
	await photographReport(folder);
	for (const colorScheme of ['light', 'dark'] as const) {
		await page.emulateMedia({ colorScheme });
		for (const { name: size, width, height } of sizes) {
			await page.setViewportSize({ width, height });
			await photographGate(size, colorScheme);
			await photographBench(size, colorScheme);
			await photographResponse(size, colorScheme);
			await photographDial(size, colorScheme);
			await photographPhotos(size, colorScheme);
			await photographPart(size, colorScheme);
			for (const { name, address } of screens) {
				await page.goto(`${program.address}/${address}`);
				await page.getByRole('heading', { level: 1 }).waitFor();
				await page.evaluate(() => document.fonts.ready);
				await page.screenshot({ path: join(folder, `${name}-${size}-${colorScheme}.png`) });
			}
		}
	}
} finally {
	await close();
}
