import { Hono } from 'hono';
import { benchCard } from '#report/bench-card.ts';
import { htmlPage } from '#report/html-page.ts';
import { reportDocument } from '#report/report-document.ts';
import type { Album } from '#storage/album.ts';
import type { SqliteJournal } from '#storage/sqlite-journal.ts';
import { keptReport } from './kept-report.ts';
import { pdfOf } from './pdf.ts';

const makers = { report: reportDocument, card: benchCard } as const;

/** A run's report and its bench card: `/:run/report.pdf?paper=Letter&words=UK&shop=...`, `/:run/card.pdf`, and both as one file for the browser, `.html`. */
export function reportRoute(house: { readonly journal: SqliteJournal; readonly album: Album }): Hono {
	const route = new Hono();
	for (const [name, make] of Object.entries(makers)) {
		route.get(`/:run/${name}.pdf`, async (context) => {
			const report = await keptReport(house, context.req.param('run') ?? '', context.req.query());
			if (!report.ok) return context.json({ fault: report.words }, 422);
			const pdf = await pdfOf(make(report.value));
			if (!pdf.ok) return context.json({ fault: pdf.words }, 500);
			return context.body(new Uint8Array(pdf.value), 200, {
				'Content-Type': 'application/pdf',
				'Content-Disposition': `inline; filename="${name}.pdf"`,
			});
		});
		route.get(`/:run/${name}.html`, async (context) => {
			const report = await keptReport(house, context.req.param('run') ?? '', context.req.query());
			if (!report.ok) return context.json({ fault: report.words }, 422);
			return context.body(htmlPage(make(report.value)), 200, {
				'Content-Type': 'text/html; charset=utf-8',
				'Content-Disposition': `attachment; filename="${name}.html"`,
			});
		});
	}
	return route;
}
