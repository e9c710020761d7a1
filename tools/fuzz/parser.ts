/** One reader of what comes from outside, and what has to hold of it for any input. */
export interface FuzzedParser {
	readonly name: string;
	/** What is read as JSON is changed as JSON too, so that changes reach behind its syntax. */
	readonly form: 'bytes' | 'json';
	/** What is known to be good, or to be wrong in a way of its own; those in test/corpus come besides. */
	readonly begins: readonly (string | Uint8Array)[];
	/** Words of the language that is read. */
	readonly words: readonly string[];
	/**
	 * Reads the input and throws where something does not hold.
	 * @returns what came of it in kind, so that an input with a new outcome is kept and changed further
	 */
	judge(input: Uint8Array): string | Promise<string>;
}

/** Throws unless something holds. */
export function holds(condition: boolean, what: string): asserts condition {
	if (!condition) throw new Error(what);
}

/** The kind of a refusal: its words without what was quoted and counted. Words for a person are one line, neither empty nor endless. */
export function refusal(words: string, mostLength = 400): string {
	holds(words.length > 8, `a refusal without words: "${words}"`);
	holds(words.length <= mostLength, `a refusal of ${words.length} characters`);
	holds(
		!/[\p{Cc}\u2028\u2029\u202e]/u.test(words),
		`a refusal with a sign that a terminal obeys: ${JSON.stringify(words)}`,
	);
	return words
		.replaceAll(/".*"/g, '"..."')
		.replaceAll(/[\d.,]+/g, '0')
		.slice(0, 60);
}

export const textOf = (input: Uint8Array): string => Buffer.from(input).toString('utf8');
