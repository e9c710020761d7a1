import { expect, test } from 'vitest';
import { htmlPage } from './html-page.ts';
import type { PrintedDocument } from './printed-document.ts';

const hostile = '</style><script>alert(1)</script>"&';
const document: PrintedDocument = {
	title: hostile,
	subtitle: 'Alignment sheet',
	footer: hostile,
	language: 'en-US',
	pages: ['page ', ' of ', ''],
	paper: 'Letter',
	blocks: [
		{ kind: 'heading', words: hostile },
		{ kind: 'paragraph', words: hostile },
		{ kind: 'rows', rows: [{ name: hostile, words: hostile }] },
		{ kind: 'cautions', cautions: [{ weight: 'danger', sign: 'Danger', words: hostile }] },
		{ kind: 'table', heads: [hostile], lines: [[hostile]] },
		{
			kind: 'step',
			number: 4,
			title: hostile,
			instructions: [hostile],
			rows: [{ name: 'Dial', words: hostile }],
			blanks: [hostile],
			pencil: { heads: ['Adjuster', 'Before'], lines: [[hostile, '']] },
			remarks: [hostile],
			cautions: [{ weight: 'care', sign: 'Care', words: hostile }],
			drawing: { svg: '<svg id="drawn"></svg>', words: 'Hook-up', widthMm: 76 },
		},
	],
};

test('hostile words stay words everywhere on the page', () => {
	const page = htmlPage(document);
	expect(page).not.toContain('<script>');
	expect(page.match(/<\/style>/g)).toHaveLength(1);
	expect(page.match(/&lt;script&gt;/g)?.length).toBeGreaterThan(12);
});

test('the page names its paper, numbers its pages and holds the drawing itself', () => {
	const page = htmlPage(document);
	expect(page).toContain('size: Letter');
	expect(page).toContain('counter(pages)');
	expect(page).toContain('<svg id="drawn"></svg>');
});

test('the footer is printed as it was typed, and ends neither its string nor the style', () => {
	const page = htmlPage({ ...document, footer: 'a "b" \\ <c>\nd' });
	expect(page).toContain(String.raw`content: "a \22 b\22  \5c  \3c c>\a d";`);
});
