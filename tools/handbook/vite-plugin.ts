import { resolve } from 'node:path';
import type { Plugin } from 'vite';
import { handbookPages, sameWords } from './handbook.ts';
import { pictureMarks } from './rendered-page.ts';

const name = 'virtual:handbook';
const resolved = `\0${name}`;

/** Gives the page its handbook, rendered at build time, as the module `virtual:handbook`; pictures become files of the page. */
export function handbook(): Plugin {
	return {
		name: 'handbook',
		resolveId: (id) => (id === name ? resolved : null),
		load(id) {
			if (id !== resolved) return null;
			const text = JSON.stringify(handbookPages());
			const pictures = [...new Set([...text.matchAll(pictureMarks)].map(([, picture]) => picture ?? ''))];
			const imports = pictures.map(
				(picture, k) => `import p${k} from ${JSON.stringify(`${resolve('docs/pictures', picture)}?url`)};`,
			);
			return [
				...imports,
				`const pictures = { ${pictures.map((picture, k) => `${JSON.stringify(picture)}: p${k}`).join(', ')} };`,
				`const shown = (html) => html.replace(${String(pictureMarks)}, (_, picture) => pictures[picture]);`,
				`export const pages = ${text}.map((page) => ({ ...page, html: shown(page.html) }));`,
				`export const sameWords = ${JSON.stringify(sameWords())};`,
			].join('\n');
		},
	};
}
