import type { SheetStep } from '#advice/sheet-step.ts';
import { escaped } from './svg.ts';

const lineLength = 26;
const lineHeightPx = 18;
const topPx = -50;

/** Words broken into lines of a drawing. */
function broken(words: string): readonly string[] {
	const lines: string[] = [];
	for (const word of words.split(' ')) {
		const last = lines.at(-1);
		if (last !== undefined && `${last} ${word}`.length <= lineLength) lines[lines.length - 1] = `${last} ${word}`;
		else lines.push(word);
	}
	return lines;
}

/** Words centred on a place, downward from it. */
function wordsBelow(text: string, xPx: number, yPx: number): string {
	return broken(text)
		.map(
			(line, index) =>
				`<text class="small" x="${xPx}" y="${yPx + lineHeightPx * index}" text-anchor="middle">${escaped(line)}</text>`,
		)
		.join('');
}

/** Words centred on a place, upward from it. */
function wordsAbove(text: string, xPx: number, yPx: number): string {
	return wordsBelow(text, xPx, yPx - lineHeightPx * (broken(text).length - 1));
}

const box = (xPx: number, yPx: number, widthPx: number, label: string) =>
	`<rect class="ink-line" x="${xPx}" y="${yPx}" width="${widthPx}" height="56" rx="3"/><text x="${xPx + widthPx / 2}" y="${yPx + 33}" text-anchor="middle">${escaped(label)}</text>`;

/**
 * How generator and set are joined for a step, as SVG text: generator, dummy antenna, point, ground; `null` when nothing is joined.
 * @param isolated the set is fed through an isolation transformer, which the drawing shows
 */
export function hookUpDrawing({ hookUp }: SheetStep, isolated: boolean): string | null {
	if (!hookUp) return null;
	const throughAir = hookUp.connection === 'loop' || hookUp.connection === 'loose coupling';
	const lead = throughAir
		? '<circle class="ink-line" cx="330" cy="78" r="24"/><circle class="ink-line" cx="330" cy="78" r="18"/><path class="ink-line" d="M160 78 H306"/><path class="ink-line dashed" d="M362 78 H470"/>'
		: `<path class="ink-line" d="M160 78 H250 M390 78 H470"/>${box(250, 50, 140, 'dummy')}`;
	const ground = throughAir ? '' : '<path class="ink-line" d="M90 106 V170 H540 V106"/>';
	const supply = isolated ? `<path class="ink-line" d="M600 78 H640"/>${box(640, 50, 130, 'isolation')}` : '';
	return [
		`<svg class="hook-up" viewBox="0 ${topPx} ${isolated ? 790 : 640} 330" role="img" aria-label="${escaped(`Hook-up: generator to ${hookUp.point}, ${hookUp.dummy}, ground to ${hookUp.ground}`)}" xmlns="http://www.w3.org/2000/svg">`,
		box(20, 50, 140, 'generator'),
		lead,
		box(470, 50, 130, 'set'),
		ground,
		supply,
		isolated ? wordsBelow('transformer, feeds this set alone', 705, 128) : '',
		throughAir ? wordsBelow(hookUp.point, 330, 128) : wordsBelow(hookUp.dummy, 320, 128),
		throughAir ? '' : wordsAbove(`to ${hookUp.point}`, 520, 38),
		throughAir ? '' : wordsBelow(`ground: ${hookUp.ground}`, 320, 194),
		'</svg>',
	].join('');
}
