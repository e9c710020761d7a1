import { execFileSync } from 'node:child_process';
import { mkdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { benchCard } from '../../src/report/bench-card.ts';
import { htmlPage } from '../../src/report/html-page.ts';
import type { PrintedDocument } from '../../src/report/printed-document.ts';
import { reportDocument } from '../../src/report/report-document.ts';
import { runReport } from '../../src/server/run-report.ts';
import { printedAlbum } from '../printed-album.ts';
import { provedRun } from '../proved-run.ts';
import { openBrowser, openPage, scratchFolder, settled } from './open-page.ts';

const folder = process.env.PEAKWRIGHT_SHOTS ?? scratchFolder();
mkdirSync(folder, { recursive: true });

/** How many pages a PDF file has. */
const countPages = (file: string): number =>
	Number(/Pages:\s+(\d+)/.exec(execFileSync('pdfinfo', [file], { encoding: 'utf8' }))?.[1]);

test('printed from the browser the report is two to four pages with photographs, the bench card one', async () => {
	const browser = await openBrowser(scratchFolder());
	const page = await browser.newPage();
	/** Pages that the browser's own print makes of it, on the paper that it names. */
	const pagesOf = async (document: PrintedDocument, name: string): Promise<number> => {
		await page.setContent(htmlPage(document));
		const file = join(folder, `${name}.pdf`);
		writeFileSync(file, await page.pdf({ preferCSSPageSize: true }));
		return countPages(file);
	};
	const entries = await provedRun();
	for (const paper of ['A4', 'Letter'])
		for (const [words, units] of [
			['US', 'kc'],
			['UK', 'm'],
		])
			for (const count of [0, 4, 20]) {
				const report = runReport('proved-run', entries, { paper, words, units, shop: 'J. Smith, Main Street 1' });
				if (!report.ok) throw new Error(report.words);
				const asked = { ...report.value, photos: await printedAlbum(count) };
				const pages = await pagesOf(reportDocument(asked), `html-report-${paper}-${words}-${count}`);
				expect(pages).toBeGreaterThanOrEqual(2);
				expect(pages).toBeLessThanOrEqual(4);
				expect(await pagesOf(benchCard(asked), `html-card-${paper}-${words}-${count}`)).toBe(1);
			}
	await browser.close();
});

test('printed from the browser the steps of a sheet go round their drawings: two on most pages', async () => {
	const { page, program, close } = await openPage();
	await page.goto(`${program.address}/#/sheet/thistlemoor-tm-517`);
	await settled(page);
	for (const format of ['A4', 'Letter'] as const) {
		const file = join(folder, `browser-sheet-${format}.pdf`);
		writeFileSync(file, await page.pdf({ format }));
		expect(countPages(file)).toBeLessThanOrEqual(6);
	}
	await close();
});
