import { type Language, usualLanguage } from '#record/language.ts';
import { escaped, place } from './svg.ts';
import { sweepLetter } from './sweep-letter.ts';
import { tickStep } from './tick-step.ts';

/** One reading on a chart. */
export interface ChartPoint {
	readonly frequencyHz: number;
	readonly levelDb: number;
	readonly uncertaintyDb: number | null;
}

/** A line on a chart, with its standard uncertainty where it has one. */
export interface ChartLine {
	readonly frequencyHz: number;
	readonly levelDb: number;
	readonly uncertaintyDb: number;
}

/** A sweep beside the one in hand. */
export interface ChartSweep {
	/** What it is called where several are compared; `null` for one that goes without a letter. */
	readonly name: string | null;
	readonly points: readonly ChartPoint[];
	/** Its decibels count from something else: it is drawn with its top where the other's is. */
	readonly isOfOtherScale: boolean;
}

/** An IF curve as it is drawn. */
export interface ResponseChart {
	readonly ifHz: number;
	readonly points: readonly ChartPoint[];
	/** Sweeps to compare with, in grey; those that have a name carry a letter, A, B, C in their order. */
	readonly before: readonly ChartSweep[];
	readonly fit: readonly ChartLine[];
	/** Shape that is aimed at, dashed. */
	readonly target: readonly ChartPoint[];
	/** Frequency of the point to read next, or of the cursor. */
	readonly cursorHz: number | null;
	readonly widthPx: number;
	readonly heightPx: number;
}

const topOf = (points: readonly ChartPoint[]): number => Math.max(...points.map(({ levelDb }) => levelDb));

/** The points of the sweeps to compare with, on the scale of the one in hand. */
function onOneScale({ points, before }: ResponseChart): readonly (readonly ChartPoint[])[] {
	return before.map((sweep) => {
		if (!sweep.isOfOtherScale || points.length === 0 || sweep.points.length === 0) return sweep.points;
		const liftDb = topOf(points) - topOf(sweep.points);
		return sweep.points.map((point) => ({ ...point, levelDb: point.levelDb + liftDb }));
	});
}

/** Height of a letter's line, and how far it stands above the last point of its curve, in pixels. */
const letterPx = 16;
const clearPx = 12;

/** A letter at the right end of each named sweep; those that would meet stand under each other. */
function letters(chart: ResponseChart, curves: readonly (readonly ChartPoint[])[], { x, y }: Scales): string {
	const taken: number[] = [];
	let number = 0;
	return chart.before
		.map(({ name }, index) => {
			const last = curves[index]?.at(-1);
			if (name === null || !last) return '';
			const letter = sweepLetter(number++);
			let yPx = y(last.levelDb) - clearPx;
			while (taken.some((other) => Math.abs(other - yPx) < letterPx)) yPx -= letterPx;
			taken.push(yPx);
			return `<text class="small" x="${place(Math.min(chart.widthPx - 4, x(last.frequencyHz) + 3))}" y="${place(Math.max(letterPx, yPx))}" text-anchor="end">${letter}</text>`;
		})
		.join('');
}

const margin = { left: 52, right: 14, top: 30, bottom: 44 } as const;
const deepestDb = 60;

interface Scales {
	readonly x: (frequencyHz: number) => number;
	readonly y: (levelDb: number) => number;
	readonly lowHz: number;
	readonly highHz: number;
	readonly topDb: number;
	readonly bottomDb: number;
}

function scales(chart: ResponseChart): Scales {
	const all = [chart.points, ...onOneScale(chart)].flat();
	const offsets = all.map(({ frequencyHz }) => Math.abs(frequencyHz - chart.ifHz));
	const reachHz = Math.max(15e3, Math.ceil(Math.max(0, ...offsets) / 5e3) * 5e3);
	const levels = (all.length > 0 ? all : chart.fit).map(({ levelDb }) => levelDb);
	const highest = Math.max(...levels, ...chart.target.map(({ levelDb }) => levelDb));
	// Without any reading the axes still have a top.
	const topDb = Number.isFinite(highest) ? highest + 2 : 2;
	const lowestDb = levels.length === 0 ? topDb - 40 : Math.min(...levels);
	const bottomDb = Math.max(topDb - deepestDb, Math.min(lowestDb - 2, topDb - 22));
	const lowHz = chart.ifHz - reachHz;
	const highHz = chart.ifHz + reachHz;
	const innerPx = chart.widthPx - margin.left - margin.right;
	const innerHighPx = chart.heightPx - margin.top - margin.bottom;
	return {
		x: (frequencyHz) => margin.left + ((frequencyHz - lowHz) / (highHz - lowHz)) * innerPx,
		y: (levelDb) => margin.top + ((topDb - Math.max(bottomDb, levelDb)) / (topDb - bottomDb)) * innerHighPx,
		lowHz,
		highHz,
		topDb,
		bottomDb,
	};
}

/** Frequency that stands at so many pixels from the left, within the chart. */
export function frequencyAt(chart: ResponseChart, fromLeftPx: number): number {
	const { lowHz, highHz } = scales(chart);
	const share = (fromLeftPx - margin.left) / (chart.widthPx - margin.left - margin.right);
	return lowHz + Math.max(0, Math.min(1, share)) * (highHz - lowHz);
}

function axes(chart: ResponseChart, { x, y, lowHz, highHz, topDb, bottomDb }: Scales, { say }: Language): string {
	const floorPx = chart.heightPx - margin.bottom;
	const parts = [
		`<path class="ink-line" d="M${margin.left} ${margin.top} V${floorPx} H${chart.widthPx - margin.right}"/>`,
	];
	const stepHz = tickStep(highHz - lowHz, Math.max(3, (chart.widthPx - 70) / 70));
	for (let hz = Math.ceil(lowHz / stepHz) * stepHz; hz <= highHz; hz += stepHz)
		parts.push(
			`<path class="ink-line" d="M${place(x(hz))} ${floorPx} v5"/><text class="small" x="${place(x(hz))}" y="${floorPx + 20}" text-anchor="middle">${Number((hz / 1e3).toFixed(1))}</text>`,
		);
	const peakDb = Math.max(...[chart.points, ...onOneScale(chart)].flat().map(({ levelDb }) => levelDb));
	const stepDb = tickStep(topDb - bottomDb, 7);
	for (let belowDb = 0; peakDb - belowDb >= bottomDb; belowDb += stepDb)
		parts.push(
			`<path class="ink-line" d="M${margin.left} ${place(y(peakDb - belowDb))} h-5"/><text class="small" x="${margin.left - 9}" y="${place(y(peakDb - belowDb) + 5)}" text-anchor="end">${belowDb === 0 ? '0' : `\u2212${Number(belowDb.toFixed(1))}`}</text>`,
		);
	parts.push(`<text class="small" x="${margin.left}" y="18">dB</text>`);
	parts.push(
		`<text class="small" x="${chart.widthPx - margin.right}" y="${chart.heightPx - 6}" text-anchor="end">${escaped(say`kc`)}</text>`,
	);
	return parts.join('');
}

const path = (
	points: readonly { readonly frequencyHz: number; readonly levelDb: number }[],
	{ x, y }: Scales,
): string =>
	points.length === 0
		? ''
		: `M${points.map(({ frequencyHz, levelDb }) => `${place(x(frequencyHz))} ${place(y(levelDb))}`).join(' L')}`;

function band(fit: readonly ChartLine[], own: Scales): string {
	if (fit.length === 0) return '';
	const upper = fit.map((line) => ({ ...line, levelDb: line.levelDb + line.uncertaintyDb }));
	const lower = fit.map((line) => ({ ...line, levelDb: line.levelDb - line.uncertaintyDb })).toReversed();
	return `<path class="band" d="${path([...upper, ...lower], own)} Z"/>`;
}

/**
 * An IF curve as SVG text: readings as open circles with error bars, the fit as a thin line with its band, the aimed shape dashed, earlier sweeps in grey, the aimed IF upright.
 * Drawn in the pixels it will have, so that its letters stay legible on a phone.
 * @param words what a screen reader says of it
 */
export function responseChart(chart: ResponseChart, words: string, language: Language = usualLanguage): string {
	const own = scales(chart);
	const { x, y } = own;
	const inside = ({ frequencyHz }: { readonly frequencyHz: number }): boolean =>
		frequencyHz >= own.lowHz && frequencyHz <= own.highHz;
	const floorPx = chart.heightPx - margin.bottom;
	const compared = onOneScale(chart).map((points) => points.filter(inside));
	const parts = [
		axes(chart, own, language),
		`<path class="ink-line dashed" d="M${place(x(chart.ifHz))} ${margin.top} V${floorPx}"/><text class="small" x="${place(x(chart.ifHz))}" y="18" text-anchor="middle">${escaped(language.say`IF ${Number((chart.ifHz / 1e3).toFixed(1))}`)}</text>`,
		...compared.map((points) => `<path class="before" d="${path(points, own)}"/>`),
		letters(chart, compared, own),
		band(chart.fit.filter(inside), own),
		`<path class="fit" d="${path(chart.fit.filter(inside), own)}"/>`,
		`<path class="target" d="${path(chart.target.filter(inside), own)}"/>`,
		...chart.points.filter(inside).map(({ frequencyHz, levelDb, uncertaintyDb }) => {
			const xPx = place(x(frequencyHz));
			const bar =
				uncertaintyDb === null || y(levelDb - uncertaintyDb) - y(levelDb + uncertaintyDb) < 9
					? ''
					: `<path class="ink-line" d="M${xPx} ${place(y(levelDb - uncertaintyDb))} V${place(y(levelDb + uncertaintyDb))}"/>`;
			return `${bar}<circle class="point" cx="${xPx}" cy="${place(y(levelDb))}" r="3.5"/>`;
		}),
	];
	if (chart.cursorHz !== null && inside({ frequencyHz: chart.cursorHz }))
		parts.push(`<path class="cursor" d="M${place(x(chart.cursorHz))} ${margin.top} V${floorPx}"/>`);
	return `<svg class="response" xmlns="http://www.w3.org/2000/svg" role="img" aria-label="${escaped(words)}" viewBox="0 0 ${chart.widthPx} ${chart.heightPx}" width="${chart.widthPx}" height="${chart.heightPx}">${parts.join('')}</svg>`;
}
