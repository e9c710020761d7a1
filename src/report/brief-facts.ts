import type { SetFacts } from '#record/set-facts.ts';
import { shownWords } from '#record/shown-words.ts';

/** Longest name of a set at the head and foot of a page, characters: two lines. */
const titleLetters = 80;

/** From more adjusters than these on a list is set closer. */
export const manyAdjusters = 24;

/** The name of a set as it stands at the head and foot of a page. */
export const titleOf = ({ name }: SetFacts): string => shownWords(name, titleLetters);

/** What is known of a set, with every name on its card cut where it is longer than this, so that no name crowds a page. */
export function briefFacts(facts: SetFacts, most: number): SetFacts {
	const cut = (words: string): string => shownWords(words, most);
	const { card, bands } = facts;
	const named = <Named extends { readonly name: string }>(list: readonly Named[]): Named[] =>
		list.map((one) => ({ ...one, name: cut(one.name) }));
	const adjusters = named(facts.adjusters);
	const tubes = card.tubes?.map(({ stage, type }) => ({ stage: cut(stage), type: cut(type) }));
	return {
		...facts,
		bands: named(bands),
		adjusters,
		card: { ...card, ...(card.adjusters && { adjusters }), ...(tubes && { tubes }) },
	};
}
