import { Hono } from 'hono';
import { makeSheet } from '#advice/sheet.ts';
import { sheetOptions } from '#advice/sheet-options.ts';
import { languageOf } from '#record/language.ts';
import type { Parsed } from '#record/parsed.ts';
import type { SetCard } from '#record/set-card.ts';
import { setFacts } from '#record/set-facts.ts';
import { type PrintedDocument, paperNamed } from '#report/printed-document.ts';
import type { PrintedPhoto } from '#report/printed-photo.ts';
import { sheetDocument } from '#report/sheet-document.ts';
import type { Album } from '#storage/album.ts';
import type { Shelf } from '#storage/shelf.ts';
import { printedPhotos } from './kept-report.ts';
import { pdfOf } from './pdf.ts';

/** The sheet of a card for paper, as the query of an address asks for it; or why it cannot be made. */
function asked(
	card: SetCard,
	photos: readonly PrintedPhoto[],
	query: Readonly<Record<string, string>>,
	atMs: number,
): Parsed<PrintedDocument> {
	const options = sheetOptions(query);
	if (!options.ok) return options;
	const paper = paperNamed(query.paper ?? 'A4');
	if (paper === null) return { ok: false, words: `paper: cannot use "${query.paper}": give A4 or Letter` };
	const facts = setFacts(card);
	if (!facts.ok) return facts;
	const language = languageOf(options.value.words, options.value.units);
	const sheet = makeSheet(facts.value, options.value, language);
	if (!sheet.ok) return sheet;
	return {
		ok: true,
		value: sheetDocument({
			facts: facts.value,
			sheet: sheet.value,
			language,
			photos,
			paper,
			day: language.day(atMs),
		}),
	};
}

/** The printed sheet of a set on the shelf: `/:id/sheet.pdf?paper=Letter&words=UK`. */
export function sheetRoute(house: {
	readonly shelf: Shelf;
	readonly album: Album;
	readonly nowMs: () => number;
}): Hono {
	const { shelf, album, nowMs } = house;
	const route = new Hono();
	route.get('/:id/sheet.pdf', async (context) => {
		const found = await shelf.set(context.req.param('id'));
		if (!found) return context.json({ fault: 'there is no such set on the shelf: go back to the shelf' }, 404);
		const placed = (await album.photos(found.id)).filter(({ places }) => places.length > 0);
		const photos = await printedPhotos(album, placed);
		const document = asked(found.card, photos, context.req.query(), nowMs());
		if (!document.ok) return context.json({ fault: document.words }, 422);
		const pdf = await pdfOf(document.value);
		if (!pdf.ok) return context.json({ fault: pdf.words }, 500);
		return context.body(new Uint8Array(pdf.value), 200, {
			'Content-Type': 'application/pdf',
			'Content-Disposition': `inline; filename="${found.id}-sheet.pdf"`,
		});
	});
	return route;
}
