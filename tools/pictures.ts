/** Makes the pictures of the documentation from the running page: docs/pictures/*.png. */
import { mkdirSync } from 'node:fs';
import { join } from 'node:path';
import { openPage } from '../test/journeys/open-page.ts';

const folder = process.argv[2] ?? 'docs/pictures';
const sizes = [
	{ name: 'desk', width: 1280, height: 800 },
	{ name: 'phone', width: 390, height: 844 },
] as const;
const screens = [
	{ name: 'shelf', address: '#/shelf' },
	{ name: 'card', address: '#/card/thistlemoor-tm-517' },
	{ name: 'sheet', address: '#/sheet/thistlemoor-tm-517' },
] as const;

mkdirSync(folder, { recursive: true });
const { page, program, close } = await openPage();
try {
	for (const colorScheme of ['light', 'dark'] as const) {
		await page.emulateMedia({ colorScheme });
		for (const { name: size, width, height } of sizes) {
			await page.setViewportSize({ width, height });
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
