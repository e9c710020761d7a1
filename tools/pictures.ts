/** Makes the pictures of the documentation from the running page: docs/pictures/*.png. */
import { mkdirSync } from 'node:fs';
import { join } from 'node:path';
import { openPage } from '../test/journeys/open-page.ts';

const folder = process.argv[2] ?? 'docs/pictures';
mkdirSync(folder, { recursive: true });
const { page, close } = await openPage();
try {
	await page.screenshot({ path: join(folder, 'shelf.png') });
} finally {
	await close();
}
