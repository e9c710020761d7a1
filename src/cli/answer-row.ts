/** One line of an answer: what it is, in a column of so many letters, and how much. */
export const answerRow =
	(letters: number) =>
	(name: string, words: string): string =>
		`${name.padEnd(letters)} ${words}`;
