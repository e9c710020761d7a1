/** The layers as the code has them: folders under `src`, an arrow from each to what it uses. */
import { readFileSync } from 'node:fs';
import { sourceFiles } from '../house-rules.ts';

const rowPx = 92;
const boxPx = { width: 136, height: 36, gap: 64 } as const;
const marginPx = 12;

/** The folder that a file belongs to: those of `core` each by its own name. */
function folderOf(path: string): string {
	const [first = '', second = ''] = path.replace(/^src\//, '').split('/');
	return first === 'core' ? `core/${second}` : first;
}

/** Which folders each folder uses, by the imports of its files, those of types too. */
function usedFolders(): ReadonlyMap<string, ReadonlySet<string>> {
	const uses = new Map<string, Set<string>>();
	for (const path of sourceFiles('src').filter((file) => !/\.test\.ts$/.test(file) && file.split('/').length > 2)) {
		const own = folderOf(path);
		const used = uses.get(own) ?? new Set<string>();
		uses.set(own, used);
		for (const [, target = ''] of readFileSync(path, 'utf8').matchAll(/from '#([^']+)'/g)) {
			const other = folderOf(`src/${target}`);
			if (other !== own) used.add(other);
		}
	}
	return uses;
}

/** The same without what follows from the rest: where a uses b and b uses c, that a uses c too is not drawn. */
function withoutImplied(uses: ReadonlyMap<string, ReadonlySet<string>>): ReadonlyMap<string, readonly string[]> {
	const reached = (from: string): ReadonlySet<string> =>
		new Set([...(uses.get(from) ?? [])].flatMap((next) => [next, ...reached(next)]));
	return new Map(
		[...uses].map(([folder, used]) => {
			const implied = new Set([...used].flatMap((next) => [...reached(next)]));
			return [folder, [...used].filter((next) => !implied.has(next)).sort()];
		}),
	);
}

/** Folders row by row from the foot: each stands above all that it uses, and about below those that use it. */
function rows(uses: ReadonlyMap<string, readonly string[]>): readonly (readonly string[])[] {
	const row = (folder: string): number => Math.max(-1, ...(uses.get(folder) ?? []).map(row)) + 1;
	const height = Math.max(...[...uses.keys()].map(row)) + 1;
	const across = new Map<string, number>();
	const levels = Array.from({ length: height }, (_, k) =>
		[...uses.keys()].filter((folder) => row(folder) === k).sort(),
	);
	for (const folders of levels.toReversed()) {
		const wanted = (folder: string): number => {
			const users = [...uses].flatMap(([user, used]) => (used.includes(folder) ? [across.get(user) ?? 0] : []));
			return users.reduce((sum, place) => sum + place, 0) / Math.max(1, users.length);
		};
		const places = new Map(folders.map((folder) => [folder, wanted(folder)]));
		folders.sort((one, other) => (places.get(one) ?? 0) - (places.get(other) ?? 0));
		for (const [place, folder] of folders.entries()) across.set(folder, place - (folders.length - 1) / 2);
	}
	return levels;
}

/** The drawing as SVG, the foundation at the foot. */
export function layerDrawing(): string {
	const uses = withoutImplied(usedFolders());
	const levels = rows(uses);
	const step = boxPx.width + boxPx.gap;
	const widthPx = 2 * marginPx + Math.max(...levels.map(({ length }) => length)) * step - boxPx.gap;
	const heightPx = 2 * marginPx + (levels.length - 1) * rowPx + boxPx.height;
	const middle = new Map(
		levels.flatMap((folders, level) =>
			folders.map((folder, place) => {
				const x = widthPx / 2 + (place - (folders.length - 1) / 2) * step;
				return [folder, { x, y: heightPx - marginPx - boxPx.height / 2 - level * rowPx }] as const;
			}),
		),
	);
	const at = (folder: string) => middle.get(folder) ?? { x: 0, y: 0 };
	const arrows = [...uses].flatMap(([folder, used]) =>
		used.map((other) => {
			const [from, to] = [at(folder), at(other)];
			return `<path class="ink-line" d="M${from.x} ${from.y + boxPx.height / 2}L${to.x} ${to.y - boxPx.height / 2 - 5}" marker-end="url(#tip)"/>`;
		}),
	);
	const boxes = [...middle].map(
		([folder, { x, y }]) =>
			`<rect class="ink-line" x="${x - boxPx.width / 2}" y="${y - boxPx.height / 2}" width="${boxPx.width}" height="${boxPx.height}" rx="2"/><text x="${x}" y="${y + 5}" text-anchor="middle">${folder}</text>`,
	);
	return [
		`<svg xmlns="http://www.w3.org/2000/svg" role="img" aria-label="Folders under src, an arrow from each to what it uses" viewBox="0 0 ${widthPx} ${heightPx}" width="${widthPx}" height="${heightPx}">`,
		'<defs><marker id="tip" markerWidth="8" markerHeight="8" refX="4" refY="4" orient="auto"><path class="joint" d="M0 1L7 4L0 7Z"/></marker></defs>',
		`<rect width="${widthPx}" height="${heightPx}" fill="#fff"/>`,
		...arrows,
		...boxes,
		'</svg>',
	].join('\n');
}
