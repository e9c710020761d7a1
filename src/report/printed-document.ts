import type { Language } from '#record/language.ts';

/** A caution as it is printed: its sign in words, and what it says. */
export interface PrintedCaution {
	readonly weight: 'danger' | 'care';
	readonly sign: string;
	readonly words: string;
}

/** A drawing on the page: SVG text that carries its own lines, what it shows in words, and how wide it is printed. */
export interface PrintedDrawing {
	readonly svg: string;
	readonly words: string;
	readonly widthMm: number;
}

/** A name and what stands behind it. */
export interface PrintedRow {
	readonly name: string;
	readonly words: string;
}

/** A table; an empty cell is left free for the pencil. */
export interface PrintedTable {
	readonly heads: readonly string[];
	readonly lines: readonly (readonly string[])[];
}

/** One step of the work with a box to tick and room for the pencil. */
export interface PrintedStep {
	readonly kind: 'step';
	readonly number: number;
	readonly title: string;
	readonly instructions: readonly string[];
	readonly rows: readonly PrintedRow[];
	/** Each is followed by a line to write on. */
	readonly blanks: readonly string[];
	/** To be filled in while the step is worked. */
	readonly pencil: PrintedTable | null;
	readonly remarks: readonly string[];
	readonly cautions: readonly PrintedCaution[];
	readonly drawing: PrintedDrawing | null;
}

/** How many pictures stand beside each other. */
export type Across = 2 | 3 | 4;

/** How wide each of them may be, so that they fill the page. */
export const acrossMm: Readonly<Record<Across, number>> = { 2: 82, 3: 53, 4: 39 };

/** What stands on the page, from top to bottom. */
export type PrintedBlock =
	| { readonly kind: 'heading'; readonly words: string }
	| { readonly kind: 'paragraph'; readonly words: string }
	/** What follows begins on a page of its own. */
	| { readonly kind: 'page' }
	| { readonly kind: 'rows'; readonly rows: readonly PrintedRow[] }
	| { readonly kind: 'cautions'; readonly cautions: readonly PrintedCaution[] }
	| { readonly kind: 'drawing'; readonly drawing: PrintedDrawing }
	/** So many beside each other, each with its words under it. */
	| { readonly kind: 'pictures'; readonly across: Across; readonly pictures: readonly PrintedDrawing[] }
	| (PrintedTable & { readonly kind: 'table' })
	| PrintedStep;

/** Sizes of paper that are printed on. */
export type Paper = 'A4' | 'Letter';

/** The paper of a name, `null` when there is none of that name. */
export function paperNamed(name: unknown): Paper | null {
	return name === 'A4' || name === 'Letter' ? name : null;
}

/** Head, foot and language of a document. */
export function printedFrame({ tag, say }: Language): Pick<PrintedDocument, 'language' | 'pages'> {
	return { language: tag, pages: say`page ${'\n'} of ${'\n'}`.split('\n') };
}

/** A document for paper: the same words go to the typesetter and into a file for the browser. */
export interface PrintedDocument {
	readonly title: string;
	/** Under the title: what kind of paper this is. */
	readonly subtitle: string;
	/** At the foot of each page, before the page's number. */
	readonly footer: string;
	/** Tag of its language: en-GB. */
	readonly language: string;
	/** What stands before, between and behind the page's number and the number of pages. */
	readonly pages: readonly string[];
	readonly paper: Paper;
	readonly blocks: readonly PrintedBlock[];
}
