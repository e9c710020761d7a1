import type { Trouble, TroubleArea } from './trouble.ts';
import { setTroubles } from './troubles-set.ts';
import { stripTroubles } from './troubles-strip.ts';

const all = { ...stripTroubles, ...setTroubles };

/** A trouble by its short name. */
export type TroubleId = keyof typeof all;

/** Every trouble that the program knows. */
export const troubles: Readonly<Record<TroubleId, Trouble>> = all;

/** The headings in the order of the work. */
export const troubleAreas: readonly TroubleArea[] = [
	'Peaking',
	'Sound',
	'Dial and oscillator',
	'Reception',
	'Instruments',
	'Cans and kinds of sets',
];

/** Whether a word names a trouble of the knowledge base. */
export function isTroubleId(word: string): word is TroubleId {
	return Object.hasOwn(troubles, word);
}

const plain = (words: string): string =>
	words
		.toLowerCase()
		.replaceAll(/[^a-z0-9]+/g, ' ')
		.trim();

/**
 * Troubles that a person's words may mean, best first: by short name, by what is said, by other words for it.
 * @example troublesFor('motorboating') // => ['putting']
 */
export function troublesFor(said: string): readonly TroubleId[] {
	const wanted = plain(said);
	if (wanted === '') return [];
	const ids = Object.keys(all) as TroubleId[];
	const named = ids.find((id) => plain(id) === wanted);
	if (named) return [named];
	const score = (id: TroubleId): number => {
		const { words, alsoSaid } = troubles[id];
		const whole = plain(words);
		if (whole === wanted) return 100;
		const also = alsoSaid.map(plain);
		if (also.includes(wanted)) return 50;
		const asked = wanted.split(' ').filter((word) => word.length > 2);
		return asked.filter((word) => ` ${plain(id)} ${whole} ${also.join(' ')} `.includes(` ${word} `)).length;
	};
	const scored = ids.map((id) => ({ id, score: score(id) })).filter((one) => one.score > 0);
	const best = Math.max(0, ...scored.map((one) => one.score));
	return scored.filter((one) => one.score === best).map(({ id }) => id);
}
