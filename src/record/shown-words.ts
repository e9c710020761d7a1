/** Signs that move the cursor, hide or turn what follows: control characters, ends of lines, marks of direction, halves of pairs. */
const unfit = /[\p{Cc}\p{Cs}\u2028\u2029\u200e\u200f\u061c\u202a-\u202e\u2066-\u2069\ufeff]/gu;

/**
 * Words from a person, a file or an instrument as they may stand in a sentence: on one line, cut where they are long, a sign that a terminal or a page would obey as a question mark.
 * @param most characters
 * @example shownWords('12\u001b[2Jx') // => '12?[2Jx'
 */
export function shownWords(words: string, most = 40): string {
	const cut = words.length > most ? `${words.slice(0, most)}...` : words;
	return cut.replaceAll(unfit, '?');
}

/** Why a text is no JSON. What a parser says of a picture or another file given by mistake helps nobody: that is told as such. */
export function jsonFault(text: string, error: unknown): string {
	return `this is not JSON: ${/^\s*[[{]/.test(text) ? shownWords((error as Error).message, 160) : 'it is another kind of file'}`;
}
