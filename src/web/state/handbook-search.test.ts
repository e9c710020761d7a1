import { expect, test } from 'vitest';
import { handbookPages, sameWords } from '../../../tools/handbook/handbook.ts';
import { findInHandbook } from './handbook-search.ts';

const pages = handbookPages();
const same = sameWords();
const found = (typed: string): string[] =>
	findInHandbook(pages, same, typed).map(({ page, section }) => `${page.id}/${section.id}`);

test('what a restorer asks is found in the first places', () => {
	expect(found('two peaks')[0]).toBe('two-peaks/');
	expect(found('weak signal')[0]).toMatch(/^weak-signal\//);
	expect(found('backup')[0]).toBe('install/backup');
	expect(found('rocked').slice(0, 5)).toContain('tracking/two-schools-of-the-low-end');
	expect(found('touchstone').some((place) => place.startsWith('files/'))).toBe(true);
});

test('American and British words find the same', () => {
	expect(found('aerial')).toEqual(found('antenna'));
	expect(found('speech coil')).toContain('connecting/sound-card-or-microphone');
	expect(found('AGC')).toContain('weak-signal/');
});

test('every word has to be there, and the beginning of a word is enough', () => {
	expect(found('padder zebra')).toEqual([]);
	expect(found('trac')[0]).toMatch(/tracking/);
	expect(found('acking')).toEqual([]);
	expect(found('  ')).toEqual([]);
});

test('the excerpt shows the word that was looked for', () => {
	const [first] = findInHandbook(pages, same, 'microphone');
	expect(first?.excerpt.toLowerCase()).toContain('microphone');
});

test('no page carries HTML from outside, and every page has words', () => {
	for (const { html, title, sections } of pages) {
		expect(html).not.toMatch(/<script|\sstyle=|\son[a-z]+=|javascript:/i);
		expect(title).not.toBe('');
		expect(sections.some(({ text }) => text.length > 20)).toBe(true);
	}
});

test('links inside lead to pages and headings that are there', () => {
	const headings = new Set(
		pages.flatMap(({ id, html }) => [
			id,
			...[...html.matchAll(/<h[1-6] id="([^"]+)"/g)].map(([, at]) => `${id}/${at}`),
		]),
	);
	for (const { id, html } of pages)
		for (const [, link = ''] of html.matchAll(/href="([^"]+)"/g))
			expect(link.startsWith('http') || headings.has(link.replace('#/handbook/', '')), `${id}: ${link}`).toBe(true);
});
