/** A page of the documentation as the program shows it: HTML without a style or a script in it, and its text for the search. */

import { existsSync, readFileSync } from 'node:fs';
import { basename, join } from 'node:path';
import katex from 'katex';
import MarkdownIt from 'markdown-it';
import { escaped } from '../../src/draw/svg.ts';
import type { HandbookPage, HandbookSection } from '../../src/web/state/handbook-search.ts';
import { headingId } from '../documentation/heading-id.ts';

/** Where a picture's address is put in when the page is built. */
const pictureMark = (name: string): string => `picture:${name}`;
export const pictureMarks = /picture:([\w-]+\.png)/g;

const folder = 'docs';

/** Where a link of the documentation leads inside the program; `null` when it is not a page of the handbook. */
function placeOf(link: string, own: string): string | null {
	const [file = '', section] = link.split('#');
	const page = file === '' ? own : /^([a-z-]+)\.md$/.exec(file)?.[1];
	return page === undefined ? null : `#/handbook/${page}${section ? `/${section}` : ''}`;
}

/** A drawing stands in the page itself, so that it is drawn in the page's own colours. */
function drawing(file: string, words: string): string {
	return readFileSync(file, 'utf8')
		.replace(/<style>[\s\S]*?<\/style>/, '')
		.replace(/aria-label="[^"]*"/, `aria-label="${escaped(words)}"`)
		.trim();
}

function reader(own: string): InstanceType<typeof MarkdownIt> {
	const markdown = new MarkdownIt({ html: false });
	const { rules } = markdown.renderer;
	markdown.core.ruler.push('places', ({ tokens }) => {
		for (const [at, token] of tokens.entries()) {
			if (token.type === 'heading_open') token.attrSet('id', headingId(tokens[at + 1]?.content ?? ''));
			for (const [k, inner] of (token.children ?? []).entries()) {
				if (inner.type !== 'link_open') continue;
				const link = String(inner.attrGet('href') ?? '');
				const place = placeOf(link, own);
				if (place !== null) inner.attrSet('href', place);
				else if (/^https?:/.test(link)) inner.attrSet('rel', 'noreferrer');
				else {
					// What is not in the handbook stays as its words.
					inner.hidden = true;
					inner.type = 'text';
					inner.content = '';
					const close = token.children?.slice(k).find(({ type }) => type === 'link_close');
					if (close) Object.assign(close, { type: 'text', content: '', tag: '' });
				}
			}
		}
	});
	rules.image = (tokens, at) => {
		const token = tokens[at];
		const source = String(token?.attrGet('src') ?? '');
		const words = token?.content ?? '';
		const file = join(folder, source);
		if (!existsSync(file)) throw new Error(`missing picture ${file}, expected by ${own}`);
		return source.endsWith('.svg')
			? `<span class="drawing" tabindex="0" role="group" aria-label="Drawing">${drawing(file, words)}</span>`
			: `<img src="${pictureMark(basename(source))}" alt="${escaped(words)}" loading="lazy">`;
	};
	rules.fence = (tokens, at) => {
		const { info = '', content = '' } = tokens[at] ?? {};
		if (info.trim() === 'math')
			return `<div class="math" tabindex="0">${katex.renderToString(content, { output: 'mathml', displayMode: true, throwOnError: true })}</div>\n`;
		const lines = escaped(content).replaceAll(/^(\$ (?:.*\\\n)*.*)$/gm, info.trim() === 'console' ? '<b>$1</b>' : '$1');
		return `<pre tabindex="0"><code>${lines}</code></pre>\n`;
	};
	rules.table_open = () => '<div class="table" tabindex="0" role="group" aria-label="Table"><table>\n';
	rules.table_close = () => '</table></div>\n';
	return markdown;
}

const plainText = (markdown: string): string =>
	markdown
		.replaceAll(/^```math[\s\S]*?^```$/gm, '')
		.replaceAll(/!?\[([^\]]*)\]\([^)]*\)/g, '$1')
		.replaceAll(/^\s*\|?[\s:|-]+\|?\s*$/gm, '')
		.replaceAll(/[`*_|>#]/g, ' ')
		.replaceAll(/\s+/g, ' ')
		.trim();

function sectionsOf(source: string): readonly HandbookSection[] {
	const bare = source.replaceAll(/^```[\s\S]*?^```$/gm, (block) => block.replaceAll(/^#/gm, ' #'));
	return bare.split(/^(?=#{1,3} )/m).map((piece) => {
		const [, marks = '', title = ''] = /^(#{1,3}) (.+)$/m.exec(piece) ?? [];
		return {
			id: marks.length > 1 ? headingId(title) : '',
			title: plainText(title),
			text: plainText(piece.slice(piece.indexOf('\n') + 1)),
		};
	});
}

/** One page of the handbook, by its name. */
export function renderedPage(id: string, group: string, words: string): HandbookPage {
	const source = readFileSync(join(folder, `${id}.md`), 'utf8');
	const html = reader(id).render(source);
	if (/\sstyle=|<script/i.test(html))
		throw new Error(`invalid page ${id}: the page's own policy admits no style inside HTML`);
	return { id, title: /^# (.+)$/m.exec(source)?.[1] ?? id, group, words, html, sections: sectionsOf(source) };
}
