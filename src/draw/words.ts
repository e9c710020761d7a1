import { escaped, place } from './svg.ts';

/** Height of a line of words in a drawing. */
export const linePx = 19;
/** Width of a letter on the average at the size of `.small` words: measured on Source Sans 3. */
const letterPx = 7.5;

/** Words broken into lines that fit a width. */
export function lines(words: string, widthPx: number): readonly string[] {
	const most = Math.floor(widthPx / letterPx);
	const broken: string[] = [];
	for (const word of words.split(' ')) {
		const last = broken.at(-1);
		if (last !== undefined && `${last} ${word}`.length <= most) broken[broken.length - 1] = `${last} ${word}`;
		else broken.push(word);
	}
	return broken;
}

/** Lines of words downward from the first one's base line. */
export function wordsAt(text: readonly string[], xPx: number, yPx: number, anchor: 'start' | 'middle'): string {
	return text
		.map(
			(line, index) =>
				`<text class="small" x="${place(xPx)}" y="${place(yPx + linePx * index)}" text-anchor="${anchor}">${escaped(line)}</text>`,
		)
		.join('');
}
