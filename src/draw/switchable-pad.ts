import type { PadSection, SwitchablePad } from '#advice/switchable-pad.ts';
import { type Language, usualLanguage } from '#record/language.ts';
import { resistanceWords } from '#record/quantity-words.ts';
import { escaped } from './svg.ts';
import { wordsAt } from './words.ts';

/** As wide as a phone's column, so that its figures are read there and on paper at their own size. */
const widthPx = 350;
const heightPx = 226;
const wirePx = 84;
const passPx = 58;
const padPx = 110;
const groundPx = 186;
const sectionPx = 132;

const wire = (path: string, kind = '') => `<path class="ink-line${kind}" d="${path}"/>`;
const contact = (xPx: number, yPx: number) => `<circle class="joint" cx="${xPx}" cy="${yPx}" r="3"/>`;
const centred = (text: string, xPx: number, yPx: number) => wordsAt([text], xPx, yPx, 'middle');
/** A resistor lying, from its left end. */
const lying = (xPx: number, yPx: number, longPx: number) =>
	`<rect class="ink-line" x="${xPx}" y="${yPx - 7}" width="${longPx}" height="14"/>`;
/** A resistor standing on the ground wire, from the wire above. */
const standing = (xPx: number, fromPx: number) =>
	`${wire(`M${xPx} ${fromPx} V132 M${xPx} 168 V${groundPx}`)}<rect class="ink-line" x="${xPx - 7}" y="132" width="14" height="36"/>`;

/** A pi with the two poles of its switch before and behind it, drawn switched in. */
function section({ nominalDb, seriesOhm, shuntOhm }: PadSection, fromPx: number): string {
	const [left, right] = [fromPx + 20, fromPx + sectionPx - 20];
	const toPx = fromPx + sectionPx;
	const middle = (fromPx + toPx) / 2;
	return [
		`<text x="${middle}" y="34" text-anchor="middle">${nominalDb} dB</text>`,
		wire(`M${left} ${passPx} H${right}`),
		wire(`M${fromPx} ${wirePx} L${left} ${padPx} M${toPx} ${wirePx} L${right} ${padPx}`),
		wire(`M${fromPx + 10} 97 H${toPx - 10}`, ' dashed'),
		wire(`M${left} ${padPx} H${middle - 22} M${middle + 22} ${padPx} H${right}`),
		lying(middle - 22, padPx, 44),
		standing(left + 6, padPx),
		standing(right - 6, padPx),
		...[fromPx, toPx].map((x) => contact(x, wirePx)),
		...[left, right].flatMap((x) => [contact(x, passPx), contact(x, padPx)]),
		centred(resistanceWords(seriesOhm).replace(' ohms', ''), middle, 83),
		centred(`2 x ${resistanceWords(shuntOhm).replace(' ohms', '')}`, middle, 155),
	].join('');
}

/** The switchable pad as SVG text: its sections, its load, where the generator and the dummy go; figures in ohms. */
export function switchablePadDrawing({ sections, loadOhm }: SwitchablePad, { say }: Language = usualLanguage): string {
	const nominal = sections.map(({ nominalDb }) => nominalDb).join(' + ');
	const firstPx = 18;
	const endPx = firstPx + sections.length * sectionPx;
	return [
		`<svg class="pad" viewBox="0 0 ${widthPx} ${heightPx}" role="img" aria-label="${escaped(say`Switchable pad of ${nominal} dB, resistors in ohms`)}" xmlns="http://www.w3.org/2000/svg">`,
		wire(`M4 ${wirePx} H${firstPx} M4 ${groundPx} H346 M${endPx} ${wirePx} H346`),
		...sections.map((each, index) => section(each, firstPx + index * sectionPx)),
		standing(endPx + 22, wirePx),
		centred(resistanceWords(loadOhm).replace(' ohms', ''), endPx + 46, 155),
		wordsAt([say`generator`], 4, 214, 'start'),
		centred(say`ohms`, widthPx / 2, 214),
		`<text class="small" x="346" y="214" text-anchor="end">${escaped(say`dummy`)}</text>`,
		'</svg>',
	].join('');
}
