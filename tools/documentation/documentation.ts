/** Everything in the documentation that is made by the program, and whether what stands there is still what it would make. */
import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { commands } from '../../src/cli/commands.ts';
import { commandsPage, manualPage } from '../../src/cli/manual.ts';
import { printed } from '../../src/draw/printed.ts';
import { instrumentJsonSchema } from '../../src/record/instrument-description.ts';
import { setCardJsonSchema } from '../../src/record/set-card.ts';
import { packageVersion } from '../../src/server/package-root.ts';
import { withCommandOutput } from './command-blocks.ts';
import { drawings } from './drawings.ts';
import { filesPage } from './files-page.ts';
import { headingId } from './heading-id.ts';
import { layerDrawing } from './layer-drawing.ts';
import { withMethodRows } from './method-rows.ts';
import { sentences } from './sentences.ts';

const json = (value: object): string => `${JSON.stringify(value, null, '\t')}\n`;

/** Pages of the documentation. */
function documentationPages(): readonly string[] {
	const below = (folder: string): string[] =>
		readdirSync(folder, { withFileTypes: true }).flatMap((entry) =>
			entry.isDirectory() ? below(join(folder, entry.name)) : [join(folder, entry.name)],
		);
	return [
		'README.md',
		'ARCHITECTURE.md',
		'CONTRIBUTING.md',
		...below('docs').filter((path) => path.endsWith('.md')),
	].sort();
}

/** Every file of the documentation that the program makes, in whole or in part, with what should stand in it. */
export async function documentation(): Promise<ReadonlyMap<string, string>> {
	const made = new Map<string, string>([
		['docs/commands.md', commandsPage(commands)],
		['docs/files.md', filesPage()],
		['docs/peakwright.1', manualPage(commands, packageVersion())],
		['docs/set-card.schema.json', json(setCardJsonSchema())],
		['docs/instrument.schema.json', json(instrumentJsonSchema())],
		['docs/sentences.json', json(sentences())],
		...drawings(),
		[
			'docs/if-curve.md',
			withMethodRows(readFileSync('docs/if-curve.md', 'utf8'), readFileSync('docs/figures.md', 'utf8')),
		],
		['docs/drawings/layers.svg', `${printed(layerDrawing())}\n`],
	]);
	for (const path of documentationPages()) {
		if (made.has(path)) continue;
		const page = readFileSync(path, 'utf8');
		if (page.includes('```console')) made.set(path, await withCommandOutput(page));
	}
	return made;
}

const headings = (page: string): readonly string[] =>
	[...page.matchAll(/^#{1,6} (.+)$/gm)].map(([, words]) => headingId(words ?? ''));

/** Links and pictures of a page that lead nowhere. */
function lostLinks(path: string): readonly string[] {
	const page = readFileSync(path, 'utf8').replaceAll(/^```[\s\S]*?^```$/gm, '');
	return [...page.matchAll(/\]\(([^)\s]+)\)/g)].flatMap(([, link = '']) => {
		if (/^https?:/.test(link)) return [];
		const [file = '', heading] = link.split('#');
		const target = file === '' ? path : join(dirname(path), file);
		if (!existsSync(target)) return [`${path}: ${link} leads nowhere`];
		if (heading !== undefined && !headings(readFileSync(target, 'utf8')).includes(heading))
			return [`${path}: ${link}: no such heading`];
		return [];
	});
}

/** What in the documentation is no longer so. */
export async function documentationFaults(): Promise<readonly string[]> {
	const stale = [...(await documentation())].flatMap(([path, wanted]) =>
		existsSync(path) && readFileSync(path, 'utf8') === wanted
			? []
			: [`${path} is not what the program makes now: npm run docs`],
	);
	return [...stale, ...documentationPages().flatMap(lostLinks)];
}
