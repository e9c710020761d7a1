/** Words of an address; an address that was cut in the middle of a letter gives its own text. */
export function decoded(words: string): string {
	try {
		return decodeURIComponent(words);
	} catch {
		return words;
	}
}
