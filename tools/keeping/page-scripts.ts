import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { gzipSync } from 'node:zlib';
import { beginIfStep, chooseMeter, openBrowser, scratchFolder, startProgram } from '../../test/journeys/open-page.ts';

const folder = 'dist/page/assets';

/** Bytes of scripts after gzip, by their file names; those of audio worklets too. */
function gzipBytes(names: Iterable<string>): number {
	return [...new Set(names)]
		.filter((name) => name.endsWith('.js'))
		.reduce((sum, name) => sum + gzipSync(readFileSync(join(folder, name)), { level: 9 }).length, 0);
}

/** Bytes of script after gzip, of all screens together. */
export const allScriptsBytes = (): number => gzipBytes(readdirSync(folder));

/** Bytes of script after gzip that one alignment fetches: shelf, card, sheet, bench with the virtual set heard, record. */
export async function mainJobScriptsBytes(): Promise<number> {
	const program = await startProgram(scratchFolder());
	const browser = await openBrowser(scratchFolder());
	const fetched: string[] = [];
	browser.on('request', (request) => fetched.push(new URL(request.url()).pathname.split('/').pop() ?? ''));
	try {
		const page = browser.pages()[0] ?? (await browser.newPage());
		for (const screen of ['', '#/card/thistlemoor-tm-517', '#/sheet/thistlemoor-tm-517']) {
			await page.goto(`${program.address}/${screen}`);
			await page.getByRole('heading', { level: 1 }).waitFor();
		}
		await beginIfStep(page, program.address);
		await chooseMeter(page, 'virtual set');
		await page.getByRole('button', { name: 'T2 sec.' }).click();
		await page.getByRole('button', { name: 'Hear the set' }).click();
		await page.waitForTimeout(1000);
		await page.goto(`${program.address}/#/record/thistlemoor-tm-517`);
		await page.getByRole('heading', { level: 1 }).waitFor();
	} finally {
		await browser.close();
		await program.end('SIGTERM');
	}
	// Worklets are fetched by the sound's own thread, which the browser does not report: they are all counted.
	return gzipBytes([...fetched, ...readdirSync(folder).filter((name) => name.includes('worklet'))]);
}
