/** The documentation as the handbook inside the program. */
import { readFileSync } from 'node:fs';
import type { HandbookPage } from '../../src/web/state/handbook-search.ts';
import { renderedPage } from './rendered-page.ts';

/** Pages in the order of docs/README.md, whose headings are their groups. */
export function handbookPages(): readonly HandbookPage[] {
	let group = '';
	return readFileSync('docs/README.md', 'utf8')
		.split('\n')
		.flatMap((line) => {
			group = /^## (.+)$/.exec(line)?.[1] ?? group;
			const [, words, id] = /^- \[([^\]]+)\]\(([a-z-]+)\.md\)/.exec(line) ?? [];
			return words === undefined || id === undefined ? [] : [renderedPage(id, group, words)];
		});
}

/** Words that mean the same on either side of the Atlantic, from the table of words; each list in small letters. */
export function sameWords(): readonly (readonly string[])[] {
	return readFileSync('docs/glossary.md', 'utf8')
		.split('\n')
		.filter((line) => /^\| [^-]/.test(line) && !line.startsWith('| US'))
		.map((line) => {
			const [us = '', uk = ''] = line.split('|').slice(1);
			return [...new Set(`${us},${uk}`.split(/[,()]/).map((word) => word.trim().toLowerCase()))].filter(
				(word) => word !== '',
			);
		})
		.filter((words) => words.length > 1);
}
