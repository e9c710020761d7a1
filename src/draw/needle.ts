import { place } from './svg.ts';

/** The arc's reach in decibels below the best, and a little above for a new best. */
const mostBelowDb = 20;
const aboveDb = 1;
/** Wide and shallow: a long pointer about a pivot far below the picture. */
const pivot = { xPx: 320, yPx: 560 } as const;
const radiusPx = 500;
const halfSpanDegrees = 33;
const marksDb = [0, 1, 2, 3, 6, 10, 15, 20] as const;
/** Seconds that the trace under the pointer remembers, and how far down it runs. */
export const traceS = 10;
const tracePx = { top: 482, bottom: 380 } as const;

/** One point of the trace: where the pointer stood so long ago. */
export interface TracePoint {
	readonly agoS: number;
	readonly degrees: number;
}

/** Decibels over which the scale is nearly even at the best; further down it is drawn together. */
const evenDb = 0.5;

/** Share of the way from the best to the end of the arc. */
function wayDown(belowBestDb: number): number {
	return (Math.sqrt(1 + belowBestDb / evenDb) - 1) / (Math.sqrt(1 + mostBelowDb / evenDb) - 1);
}

/**
 * Angle of the pointer from the vertical, in degrees, clockwise positive; best stands right of the middle.
 * The scale is stretched near the best, where turning is decided, and even there, so that scatter does not shake the pointer.
 */
export function needleDegrees(belowBestDb: number): number {
	const held = Math.max(-aboveDb, Math.min(mostBelowDb, belowBestDb));
	const way = held >= 0 ? wayDown(held) : -wayDown(-held);
	return halfSpanDegrees * 0.7 - way * halfSpanDegrees * 1.65;
}

function onArc(degrees: number, atPx: number): readonly [number, number] {
	const angleRad = (degrees * Math.PI) / 180;
	return [pivot.xPx + atPx * Math.sin(angleRad), pivot.yPx - atPx * Math.cos(angleRad)];
}

function ray(degrees: number, fromPx: number, toPx: number): string {
	const [x1, y1] = onArc(degrees, fromPx);
	const [x2, y2] = onArc(degrees, toPx);
	return `M${place(x1)} ${place(y1)} L${place(x2)} ${place(y2)}`;
}

/** The scale as SVG text for a picture of 640 by 190: an arc in decibels off the best so far and a pencil mark at the best. */
export function needleScale(): string {
	const marks = marksDb.map((levelDb) => {
		const degrees = needleDegrees(levelDb);
		const [x, y] = onArc(degrees, radiusPx + 26);
		return `<path class="ink-line" d="${ray(degrees, radiusPx, radiusPx + 14)}"/><text x="${place(x)}" y="${place(y + 5)}" text-anchor="middle">${levelDb}</text>`;
	});
	const [startX, startY] = onArc(needleDegrees(mostBelowDb), radiusPx);
	const [endX, endY] = onArc(needleDegrees(-aboveDb), radiusPx);
	return [
		`<path class="ink-line" d="M${place(startX)} ${place(startY)} A${radiusPx} ${radiusPx} 0 0 1 ${place(endX)} ${place(endY)}"/>`,
		...marks,
		`<path class="pencil" d="${ray(needleDegrees(0), radiusPx - 12, radiusPx + 4)}"/>`,
	].join('');
}

/** The pointer at an angle, as the path of an SVG. */
export function pointerPath(degrees: number): string {
	return ray(degrees, radiusPx - 130, radiusPx + 10);
}

/** Where the pointer stood in the last ten seconds, now on top, as the path of an SVG; empty before there are two points. */
export function tracePath(points: readonly TracePoint[]): string {
	const own = points.filter(({ agoS }) => agoS >= 0 && agoS <= traceS);
	if (own.length < 2) return '';
	const places = own.map(({ agoS, degrees }) => {
		const [x, y] = onArc(degrees, tracePx.top - (agoS / traceS) * (tracePx.top - tracePx.bottom));
		return `${place(x)} ${place(y)}`;
	});
	return `M${places.join(' L')}`;
}

/**
 * Angle of a damped pointer after so long: it closes on its aim by a factor of e in each time constant, as a moving-coil instrument does; 0 is undamped.
 */
export function dampedDegrees(degrees: number, aimDegrees: number, elapsedS: number, timeConstantS: number): number {
	if (timeConstantS <= 0) return aimDegrees;
	return aimDegrees + (degrees - aimDegrees) * Math.exp(-elapsedS / timeConstantS);
}
