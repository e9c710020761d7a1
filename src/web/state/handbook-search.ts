/** A stretch of a handbook page under one heading. */
export interface HandbookSection {
	/** Of its heading; empty for what stands before the first one. */
	readonly id: string;
	readonly title: string;
	/** Without marks, for the search. */
	readonly text: string;
}

/** A page of the handbook, made from the documentation when the program is built. */
export interface HandbookPage {
	readonly id: string;
	readonly title: string;
	/** Under what it stands in the contents. */
	readonly group: string;
	/** What the contents say of it. */
	readonly words: string;
	readonly html: string;
	readonly sections: readonly HandbookSection[];
}

/** A section that has all the words that were looked for. */
export interface HandbookFind {
	readonly page: HandbookPage;
	readonly section: HandbookSection;
	/** The text about the first word found. */
	readonly excerpt: string;
}

const excerptLength = 150;
const most = 20;

/** Small letters without accents; dashes and signs of plus stay, for B-plus and B+. */
const plain = (text: string): string =>
	text
		.normalize('NFD')
		.replaceAll(/\p{Mark}/gu, '')
		.toLowerCase();

/** Where a word begins in a text, as the beginning of one of its words; -1 when it does not. */
function placeIn(text: string, word: string): number {
	for (let at = text.indexOf(word); at >= 0; at = text.indexOf(word, at + 1))
		if (at === 0 || !/[\p{Letter}\p{Number}]/u.test(text[at - 1] ?? '')) return at;
	return -1;
}

/** The spellings under which a word is looked for: its own, and what means the same to others of the trade. */
function spellings(word: string, sameWords: readonly (readonly string[])[]): readonly string[] {
	const others = word.length < 3 ? [] : sameWords.filter((words) => words.includes(word)).flat();
	return [...new Set([word, ...others])];
}

/** The words that were typed; what the trade says in two, such as voice coil, stays together. */
function wordsOf(typed: string, sameWords: readonly (readonly string[])[]): readonly string[] {
	const phrase = sameWords.flat().find((words) => words.includes(' ') && placeIn(typed, words) >= 0);
	const rest = phrase === undefined ? typed : typed.replace(phrase, ' ');
	const single = rest.split(/[\s,;.?!"]+/).filter((word) => word !== '');
	return phrase === undefined ? single : [phrase, ...single];
}

function excerptAbout(text: string, at: number): string {
	const from = Math.max(0, at - 40);
	const begin = from === 0 ? 0 : text.indexOf(' ', from) + 1;
	const isCut = begin + excerptLength < text.length;
	const end = isCut ? text.lastIndexOf(' ', begin + excerptLength) : text.length;
	return `${begin > 0 ? '\u2026 ' : ''}${text.slice(begin, end)}${isCut ? ' \u2026' : ''}`;
}

interface Scored extends HandbookFind {
	readonly score: number;
}

function scored(page: HandbookPage, section: HandbookSection, wanted: readonly (readonly string[])[]): Scored | null {
	const [title, heading, text] = [plain(page.title), plain(section.title), plain(section.text)];
	let score = 0;
	let first = -1;
	for (const words of wanted) {
		const inText = Math.max(...words.map((word) => placeIn(text, word)));
		const inHeading = words.some((word) => placeIn(heading, word) >= 0);
		const inTitle = words.some((word) => placeIn(title, word) >= 0);
		if (inText < 0 && !inHeading && !inTitle) return null;
		score += (inHeading ? 4 : 0) + (inTitle ? 2 : 0) + (inText >= 0 ? 1 : 0);
		if (first < 0) first = inText;
	}
	return { page, section, excerpt: excerptAbout(section.text, Math.max(0, first)), score };
}

/**
 * Sections of the handbook that have every word that was typed, the best first; a word may be the beginning of one, and may be said on the other side of the Atlantic.
 * @param sameWords lists of words that mean the same, in small letters
 */
export function findInHandbook(
	pages: readonly HandbookPage[],
	sameWords: readonly (readonly string[])[],
	typed: string,
): readonly HandbookFind[] {
	const wanted = wordsOf(plain(typed), sameWords).map((word) => spellings(word, sameWords));
	if (wanted.length === 0) return [];
	return pages
		.flatMap((page) => page.sections.map((section) => scored(page, section, wanted)))
		.filter((find) => find !== null)
		.sort((one, other) => other.score - one.score)
		.slice(0, most);
}
