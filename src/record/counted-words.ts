/**
 * How many of a thing, in a sentence.
 * @param many what several are called, where that is not `one` with an s
 * @example countedWords(1, 'entry', 'entries') // => '1 entry'
 */
export function countedWords(count: number, one: string, many = `${one}s`): string {
	return `${count} ${count === 1 ? one : many}`;
}
