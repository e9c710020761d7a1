import { benchCard } from '#report/bench-card.ts';
import { htmlPage } from '#report/html-page.ts';
import { reportDocument } from '#report/report-document.ts';
import { keptReport } from '#server/kept-report.ts';
import { sqliteAlbum } from '#storage/album.ts';
import { sqliteJournal } from '#storage/sqlite-journal.ts';
import { InputFault } from './command.ts';
import { writeOutput } from './input.ts';
import { pdfBytes } from './pdf-bytes.ts';
import { withStore } from './shelf-commands.ts';
import { spokenCommand } from './spoken-command.ts';

const given = (value: unknown): string | undefined => (typeof value === 'string' ? value : undefined);

export const reportCommand = spokenCommand({
	name: 'report',
	summary: 'prints what a run did and proved: for the owner, and for the next restorer',
	usage:
		'RUN [--pdf FILE] [--html FILE] [--card FILE.pdf] [--paper A4|Letter] [--shop "Name, address"] [--data FOLDER]',
	examples: [
		'npx peakwright runs',
		'npx peakwright report 3f1c2a9e-run --pdf report.pdf --card card.pdf --shop "J. Smith, Main Street 1"',
	],
	options: {
		pdf: { type: 'string' },
		html: { type: 'string' },
		card: { type: 'string' },
		paper: { type: 'string' },
		shop: { type: 'string' },
		data: { type: 'string' },
	},
	run: (input, output) =>
		withStore(input, async (store) => {
			const { values, positionals } = input;
			const [run, ...more] = positionals;
			if (run === undefined || more.length > 0)
				throw new InputFault('give one run: npx peakwright report RUN --pdf FILE; npx peakwright runs lists them');
			const [pdf, html, card] = [given(values.pdf), given(values.html), given(values.card)];
			if (pdf === undefined && html === undefined && card === undefined)
				throw new InputFault('give the file to write: --pdf FILE, --html FILE or --card FILE');
			const report = await keptReport({ journal: sqliteJournal(store), album: sqliteAlbum(store) }, run, {
				paper: given(values.paper),
				words: given(values.words),
				units: given(values.units),
				shop: given(values.shop),
			});
			if (!report.ok) throw new InputFault(report.words);
			const document = reportDocument(report.value);
			if (pdf !== undefined) writeOutput(pdf, await pdfBytes(document));
			if (html !== undefined) writeOutput(html, htmlPage(document));
			if (card !== undefined) writeOutput(card, await pdfBytes(benchCard(report.value)));
			output.notice(`Written: ${[pdf, html, card].filter(Boolean).join(', ')}.`);
		}),
});
