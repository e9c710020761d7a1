import { join } from 'node:path';

/** What the builder tells of a module: those that it opens with. */
interface Modules {
	getModuleInfo(id: string): { readonly importedIds: readonly string[] } | null;
}

const web = join(import.meta.dirname, '../src/web');
/** Screens that the bench is made of. */
const bench = ['bench-entry', 'bench-work'].map((screen) => join(web, `screens/${screen}.svelte`));
/** What opens before it. */
const before = [
	join(web, 'main.ts'),
	...['card-form', 'sheet-view', 'run-record'].map((screen) => join(web, `screens/${screen}.svelte`)),
];

/** All modules that open with these. */
function openedWith(first: readonly string[], modules: Modules): ReadonlySet<string> {
	const found = new Set<string>();
	const waiting = [...first];
	for (let id = waiting.pop(); id !== undefined; id = waiting.pop()) {
		if (found.has(id)) continue;
		found.add(id);
		waiting.push(...(modules.getModuleInfo(id)?.importedIds ?? []));
	}
	return found;
}

/**
 * Names the file of what opens with the bench and not before it: in one piece it packs a tenth smaller than in a dozen.
 * Anything else is left to the builder.
 */
export function benchFile(): (id: string, modules: Modules) => string | null {
	let own: ReadonlySet<string> | null = null;
	return (id, modules) => {
		if (own === null) {
			const earlier = openedWith(before, modules);
			own = new Set([...openedWith(bench, modules)].filter((one) => !earlier.has(one)));
		}
		return own.has(id) ? 'bench' : null;
	};
}
