import { Hono } from 'hono';
import { benchCard } from '#report/bench-card.ts';
import { reportDocument } from '#report/report-document.ts';
import type { Album } from '#storage/album.ts';
import type { SqliteJournal } from '#storage/sqlite-journal.ts';
import { keptReport } from './kept-report.ts';
import { pdfOf } from './pdf.ts';

const makers = { 'report.pdf': reportDocument, 'card.pdf': benchCard } as const;

/** A run's report and its bench card on paper: `/:run/report.pdf?paper=Letter&words=UK&shop=...`, `/:run/card.pdf`. */
export function reportRoute(house: { readonly journal: SqliteJournal; readonly album: Album }): Hono {
	const route = new Hono();
	for (const [name, make] of Object.entries(makers)) {
		route.get(`/:run/${name}`, async (context) => {
			const report = await keptReport(house, context.req.param('run') ?? '', context.req.query());
			if (!report.ok) return context.json({ fault: report.words }, 422);
			const pdf = await pdfOf(make(report.value));
			if (!pdf.ok) return context.json({ fault: pdf.words }, 500);
			return context.body(new Uint8Array(pdf.value), 200, {
				'Content-Type': 'application/pdf',
				'Content-Disposition': `inline; filename="${name}"`,
			});
		});
	}
	return route;
}
