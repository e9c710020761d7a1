import type { HookUp } from './sheet-step.ts';

/**
 * Where the generator goes and through what, in a line.
 * @example hookUpWords({ connection: 'antenna through dummy', point: 'antenna terminal', dummy: '200 mmf in series', why: '', ground: 'chassis' }) // => 'antenna terminal, through 200 mmf in series'
 */
export function hookUpWords({ point, dummy }: HookUp): string {
	return `${point}, ${dummy === 'none' ? 'no dummy' : `through ${dummy}`}`;
}
