/** The address of a heading, as the common readers of Markdown make it. */
export const headingId = (words: string): string =>
	words
		.toLowerCase()
		.replaceAll(/[^\p{Letter}\p{Number} _-]/gu, '')
		.replaceAll(' ', '-');
