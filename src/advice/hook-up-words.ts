import { type Language, usualLanguage } from '#record/language.ts';
import type { HookUp } from './sheet-step.ts';

/**
 * Where the generator goes and through what, in a line.
 * @example hookUpWords({ connection: 'antenna through dummy', point: 'antenna terminal', dummy: '200 mmf in series', why: '', ground: 'chassis' }) // => 'antenna terminal, through 200 mmf in series'
 */
export function hookUpWords({ point, dummy }: HookUp, { say }: Language = usualLanguage): string {
	return dummy === 'none' ? say`${point}, no dummy` : say`${point}, through ${dummy}`;
}
