import { escaped, place } from './svg.ts';

/** An error to be shown as a flag on a mark. */
export interface DialFlag {
	/** Along the scale, 0 to 1. */
	readonly share: number;
	readonly errorHz: number;
	readonly words: string;
}

/** What a dial's drawing shows. */
export interface DialPicture {
	readonly shape: 'straight' | 'arc';
	readonly marks: readonly { readonly share: number; readonly words: string }[];
	/** The mark to sit on now. */
	readonly nowShare: number | null;
	readonly measured: readonly DialFlag[];
	/** What is foretold after the acts. */
	readonly foretold: readonly DialFlag[];
	readonly whistles: readonly { readonly share: number; readonly words: string }[];
}

const marginPx = 34;
/** Half the angle of an arc. */
const arcHalfRad = 0.335;
/** A flag is at most this long. */
const longestPx = 34;

type Point = readonly [number, number];

/** A place on the scale, `downPx` below its line. */
type Places = (share: number, downPx: number) => Point;

function placesOf(shape: DialPicture['shape'], widthPx: number): Places {
	const lengthPx = widthPx - 2 * marginPx;
	if (shape === 'straight') return (share, downPx) => [marginPx + share * lengthPx, 70 + downPx];
	const middlePx = lengthPx / 2 / Math.sin(arcHalfRad);
	return (share, downPx) => {
		const angleRad = (2 * share - 1) * arcHalfRad;
		const radiusPx = middlePx - downPx;
		return [widthPx / 2 + radiusPx * Math.sin(angleRad), 60 + middlePx - radiusPx * Math.cos(angleRad)];
	};
}

function path(points: readonly Point[], kind: string): string {
	return `<path class="${kind}" d="${points.map(([x, y], k) => `${k === 0 ? 'M' : 'L'}${place(x)} ${place(y)}`).join(' ')}"/>`;
}

const text = ([x, y]: Point, words: string, kind: string): string =>
	`<text class="${kind}" x="${place(x)}" y="${place(y)}" text-anchor="middle">${escaped(words)}</text>`;

/** Flags of a row, their length by the greatest of all; the words stand under the stem, every other one lower where they would meet. */
function flags(at: Places, row: readonly DialFlag[], downPx: number, most: number, kind: string): string {
	let lastX = Number.NEGATIVE_INFINITY;
	let isLow = false;
	return row
		.map(({ share, errorHz, words }) => {
			const foot = at(share, downPx);
			const tip: Point = [foot[0] + (longestPx * errorHz) / most, foot[1] + 7];
			isLow = foot[0] - lastX < 58 ? !isLow : false;
			lastX = foot[0];
			const below: Point = [foot[0], foot[1] + (isLow ? 48 : 31)];
			return `<path class="flag ${kind}" d="M${place(foot[0])} ${place(foot[1])} L${place(tip[0])} ${place(tip[1])} L${place(foot[0])} ${place(foot[1] + 14)} Z"/>${path([at(share, downPx - 12), foot], 'hair')}${text(below, words, 'small')}`;
		})
		.join('');
}

/**
 * A set's own scale as SVG text: marks, errors as flags, what is foretold as a second row, whistles as a third.
 * @param widthPx of the picture: as wide as it is shown, so that its words stay legible
 * @param said what the picture shows, for those who cannot see it
 */
export function dialScale(picture: DialPicture, said: string, widthPx: number): string {
	const { shape, marks, nowShare, measured, foretold, whistles } = picture;
	const at = placesOf(shape, widthPx);
	const line = Array.from({ length: 41 }, (_, k) => at(k / 40, 0));
	const most = Math.max(2e3, ...[...measured, ...foretold].map(({ errorHz }) => Math.abs(errorHz)));
	const rows = 1 + Number(foretold.length > 0) + Number(whistles.length > 0);
	const secondPx = 96;
	const whistlePx = foretold.length > 0 ? 172 : 96;
	const height = (shape === 'arc' ? 120 : 78) + (measured.length > 0 ? 70 : 14) + (rows - 1) * 74;
	let lastX = Number.NEGATIVE_INFINITY;
	const labels = marks.map(({ share, words }) => {
		const foot = at(share, 0);
		const isCrowded = foot[0] - lastX < 40;
		if (!isCrowded) lastX = foot[0];
		return `${path([foot, at(share, -12)], 'ink-line')}${isCrowded ? '' : text(at(share, -20), words, '')}`;
	});
	return [
		`<svg class="dial-scale" viewBox="0 0 ${widthPx} ${height}" role="img" aria-label="${escaped(said)}" xmlns="http://www.w3.org/2000/svg">`,
		path(line, 'ink-line'),
		...labels,
		nowShare === null ? '' : path([at(nowShare, -14), at(nowShare, 24)], 'pointer'),
		flags(at, measured, 22, most, 'measured'),
		flags(at, foretold, secondPx, most, 'foretold'),
		...whistles.map(({ share, words }) => {
			const [x, y] = at(share, whistlePx);
			return `<circle class="ink-line" cx="${place(x)}" cy="${place(y)}" r="4"><title>${escaped(words)}</title></circle>`;
		}),
		'</svg>',
	].join('');
}
