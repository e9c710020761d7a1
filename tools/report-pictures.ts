import { execFileSync } from 'node:child_process';
import { join } from 'node:path';
import { benchCard } from '../src/report/bench-card.ts';
import { reportDocument } from '../src/report/report-document.ts';
import { pdfOf } from '../src/server/pdf.ts';
import { runReport } from '../src/server/run-report.ts';
import { provedRun } from '../test/proved-run.ts';

/** Every page of the report and the bench card of a proved run on the demo set, as grey paper shows them. */
export async function photographReport(folder: string): Promise<void> {
	const report = runReport('proved-run', await provedRun(), { shop: 'J. Smith, Main Street 1' });
	if (!report.ok) throw new Error(report.words);
	const documents = { report: reportDocument(report.value), 'bench-card': benchCard(report.value) };
	for (const [name, number] of [
		['report', '1'],
		['report', '2'],
		['report', '3'],
		['report', '4'],
		['bench-card', '1'],
	] as const) {
		const pdf = await pdfOf(documents[name]);
		if (!pdf.ok) throw new Error(pdf.words);
		execFileSync(
			'pdftoppm',
			['-r', '72', '-png', '-gray', '-singlefile', '-f', number, '-l', number, '-', join(folder, `${name}-${number}`)],
			{ input: pdf.value, stdio: ['pipe', 'ignore', 'ignore'] },
		);
	}
}
