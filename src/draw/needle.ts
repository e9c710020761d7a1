import { place } from './svg.ts';

/** The arc's reach in decibels below the best, and a little above for a new best. */
const mostBelowDb = 20;
const aboveDb = 1;
/** Wide and shallow: a long pointer about a pivot far below the picture. */
const pivot = { xPx: 320, yPx: 560 } as const;
const radiusPx = 500;
const halfSpanDegrees = 33;
const marksDb = [0, 1, 2, 3, 6, 10, 15, 20] as const;

/**
 * Angle of the pointer from the vertical, in degrees, clockwise positive; best stands right of the middle.
 * The scale is stretched near the best, where turning is decided: the angle goes with the root of the decibels below it.
 */
export function needleDegrees(belowBestDb: number): number {
	const held = Math.max(-aboveDb, Math.min(mostBelowDb, belowBestDb));
	const way = held >= 0 ? Math.sqrt(held / mostBelowDb) : -0.16 * Math.sqrt(-held / aboveDb);
	return halfSpanDegrees * 0.7 - way * halfSpanDegrees * 1.65;
}

function onArc(degrees: number, atPx: number): readonly [number, number] {
	const angleRad = (degrees * Math.PI) / 180;
	return [pivot.xPx + atPx * Math.sin(angleRad), pivot.yPx - atPx * Math.cos(angleRad)];
}

function line(degrees: number, fromPx: number, toPx: number, kind: string): string {
	const [x1, y1] = onArc(degrees, fromPx);
	const [x2, y2] = onArc(degrees, toPx);
	return `<path class="${kind}" d="M${place(x1)} ${place(y1)} L${place(x2)} ${place(y2)}"/>`;
}

/**
 * The needle as SVG text: an arc in decibels below the best so far, a pencil mark at the best, and the pointer.
 * @param belowBestDb `null` when there is no reading: the pointer is left out
 */
export function needle(belowBestDb: number | null): string {
	const marks = marksDb.map((levelDb) => {
		const degrees = needleDegrees(levelDb);
		const [x, y] = onArc(degrees, radiusPx + 26);
		return `${line(degrees, radiusPx, radiusPx + 14, 'ink-line')}<text x="${place(x)}" y="${place(y + 5)}" text-anchor="middle">${levelDb}</text>`;
	});
	const [startX, startY] = onArc(needleDegrees(mostBelowDb), radiusPx);
	const [endX, endY] = onArc(needleDegrees(-aboveDb), radiusPx);
	const said = belowBestDb === null ? 'no reading yet' : `${belowBestDb.toFixed(1)} decibels below the best`;
	return [
		`<svg class="needle" viewBox="0 0 640 190" role="img" aria-label="Needle: ${said}" xmlns="http://www.w3.org/2000/svg">`,
		`<path class="ink-line" d="M${place(startX)} ${place(startY)} A${radiusPx} ${radiusPx} 0 0 1 ${place(endX)} ${place(endY)}"/>`,
		...marks,
		line(needleDegrees(0), radiusPx - 12, radiusPx + 4, 'pencil'),
		belowBestDb === null ? '' : line(needleDegrees(belowBestDb), radiusPx - 130, radiusPx + 10, 'pointer'),
		'</svg>',
	].join('');
}
