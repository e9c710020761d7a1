import type { HookUp, SheetStep } from '#advice/sheet-step.ts';
import { type Language, usualLanguage } from '#record/language.ts';
import { escaped, place } from './svg.ts';
import { linePx, lines, wordsAt } from './words.ts';

/** Drawn as wide as a phone's column, so that its words are read there and on paper at their own size. */
const widthPx = 350;
const hotPx = 46;
const groundPx = 222;
const boxPx = 40;

const box = (xPx: number, yPx: number, wide: number, label: string) =>
	`<rect class="ink-line" x="${place(xPx)}" y="${place(yPx)}" width="${wide}" height="${boxPx}" rx="3"/><text x="${place(xPx + wide / 2)}" y="${place(yPx + 26)}" text-anchor="middle">${escaped(label)}</text>`;
const lead = (path: string, kind = '') => `<path class="ink-line${kind}" d="${path}"/>`;
const joint = (xPx: number, yPx: number) => `<circle class="joint" cx="${xPx}" cy="${place(yPx)}" r="4"/>`;

/** What is drawn from the generator's box down to the set's, and how far down the set begins. */
interface Joining {
	readonly drawn: string;
	readonly setTopPx: number;
}

/** A coil before the set's own, with nothing that touches. */
function throughTheAir(hookUp: HookUp, topPx: number): Joining {
	const words = lines(hookUp.point, widthPx - 90);
	const coilPx = topPx + 40;
	const setTopPx = Math.max(coilPx + 62, topPx + 26 + words.length * linePx + 20);
	const turns = [0, 9].map((step) => `<ellipse class="ink-line" cx="${hotPx}" cy="${coilPx + step}" rx="26" ry="10"/>`);
	return {
		drawn: [
			lead(`M${hotPx} ${topPx} V${coilPx - 10}`),
			...turns,
			lead(`M${hotPx} ${coilPx + 23} V${setTopPx}`, ' dashed'),
			wordsAt(words, 86, topPx + 26, 'start'),
		].join(''),
		setTopPx,
	};
}

/** Hot lead through the dummy to its point, ground lead to the set's return. */
function throughLeads(hookUp: HookUp, topPx: number, { say }: Language): Joining {
	const part = lines(hookUp.dummy, 150);
	const partTopPx = topPx + 16;
	const partPx = part.length * linePx + 14;
	const wordsPx = partTopPx + partPx + 26;
	const point = lines(say`to ${hookUp.point}`, groundPx - hotPx - 22);
	const ground = lines(say`ground lead to ${hookUp.ground}`, widthPx - groundPx - 14);
	const setTopPx = Math.max(wordsPx + (point.length - 1) * linePx, topPx + 10 + (ground.length - 1) * linePx) + 18;
	return {
		drawn: [
			lead(`M${hotPx} ${topPx} V${partTopPx}`),
			`<rect class="ink-line" x="10" y="${partTopPx}" width="170" height="${partPx}" rx="3"/>`,
			wordsAt(part, 95, partTopPx + 20, 'middle'),
			lead(`M${hotPx} ${partTopPx + partPx} V${setTopPx}`),
			joint(hotPx, setTopPx),
			wordsAt(point, hotPx + 12, wordsPx, 'start'),
			lead(`M150 ${topPx - 20} H${groundPx} V${setTopPx}`),
			joint(groundPx, setTopPx),
			wordsAt(ground, groundPx + 11, topPx + 10, 'start'),
		].join(''),
		setTopPx,
	};
}

/**
 * How generator and set are joined for a step, as SVG text: generator, dummy antenna, point, ground; `null` when nothing is joined.
 * @param language of the drawing's own words
 * @param isolated the set is fed through an isolation transformer, which the drawing shows
 */
export function hookUpDrawing(
	{ hookUp }: Pick<SheetStep, 'hookUp'>,
	isolated: boolean,
	language: Language = usualLanguage,
): string | null {
	const { say } = language;
	if (!hookUp || hookUp.connection === 'off') return null;
	const isWireless = hookUp.connection === 'loop' || hookUp.connection === 'loose coupling';
	const { drawn, setTopPx } = isWireless ? throughTheAir(hookUp, boxPx + 4) : throughLeads(hookUp, boxPx + 4, language);
	const belowPx = setTopPx + boxPx;
	const heightPx = belowPx + (isolated ? 26 + boxPx : 0) + 4;
	const shown = isWireless ? hookUp.point : say`${hookUp.dummy} to ${hookUp.point}, ground lead to ${hookUp.ground}`;
	return [
		`<svg class="hook-up" viewBox="0 0 ${widthPx} ${heightPx}" role="img" aria-label="${escaped(isolated ? say`Hook-up: generator, ${shown}; the set fed through its own isolation transformer` : say`Hook-up: generator, ${shown}`)}" xmlns="http://www.w3.org/2000/svg">`,
		box(10, 4, 140, say`generator`),
		drawn,
		box(10, setTopPx, widthPx - 20, say`set`),
		isolated ? lead(`M${widthPx / 2} ${belowPx} V${belowPx + 26}`) : '',
		isolated ? box(10, belowPx + 26, widthPx - 20, say`isolation transformer, for this set alone`) : '',
		'</svg>',
	].join('');
}
