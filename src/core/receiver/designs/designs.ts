import type { SetDesign } from '../design.ts';
import { tm517 } from './tm-517.ts';
import { tm523 } from './tm-523.ts';

/** Every virtual set there is, by the id that a set card names; an id is any word, so nothing is inherited here. */
export const designs: Readonly<Record<string, SetDesign>> = Object.assign(Object.create(null), {
	[tm517.id]: tm517,
	[tm523.id]: tm523,
});
