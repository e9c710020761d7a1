import type { PrintedDocument } from '#report/printed-document.ts';
import { pdfOf } from '#server/pdf.ts';

/** A document as PDF; fails where the typesetter cannot be loaded. */
export async function pdfBytes(document: PrintedDocument): Promise<Buffer> {
	const pdf = await pdfOf(document);
	if (!pdf.ok) throw new Error(pdf.words);
	return pdf.value;
}
