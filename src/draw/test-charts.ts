import { type Language, usualLanguage } from '#record/language.ts';
import { decimalWords, voltageWords } from '#record/quantity-words.ts';
import { escaped, place } from './svg.ts';

const widthPx = 560;

/** One level with how far it may lie off, before and after the work. */
export interface LevelPair {
	readonly label: string;
	readonly before: { readonly lowV: number; readonly atV: number; readonly highV: number } | null;
	readonly after: { readonly lowV: number; readonly atV: number; readonly highV: number } | null;
}

/** A scale of decades between two levels, in pixels. */
function decades(lowV: number, highV: number, fromPx: number, toPx: number) {
	const first = Math.floor(Math.log10(lowV));
	const last = Math.max(Math.ceil(Math.log10(highV)), first + 1);
	const at = (levelV: number): number => fromPx + ((Math.log10(levelV) - first) / (last - first)) * (toPx - fromPx);
	return { at, marksV: Array.from({ length: last - first + 1 }, (_, k) => 10 ** (first + k)) };
}

function dot(xPx: number, yPx: number, isAfter: boolean): string {
	return `<circle class="${isAfter ? 'joint' : 'ink-line open'}" cx="${place(xPx)}" cy="${place(yPx)}" r="5"/>`;
}

/** Input for the standard output at each dial mark, before (open) and after (filled), with two standard deviations; further left is better. */
export function sensitivityChart(pairs: readonly LevelPair[], { say }: Language = usualLanguage): string {
	const levels = pairs.flatMap(({ before, after }) => [before, after]).filter((level) => level !== null);
	const scale = decades(
		Math.min(...levels.map(({ lowV }) => lowV)),
		Math.max(...levels.map(({ highV }) => highV)),
		120,
		widthPx - 60,
	);
	const rowPx = 46;
	const footPx = pairs.length * rowPx + 14;
	const rows = pairs.map(({ label, before, after }, index) => {
		const yPx = 22 + index * rowPx;
		const drawn = (level: LevelPair['before'], atPx: number, isAfter: boolean): string =>
			level === null
				? ''
				: `<path class="ink-line${isAfter ? '' : ' dashed'}" d="M${place(scale.at(level.lowV))} ${atPx} H${place(scale.at(level.highV))}"/>${dot(scale.at(level.atV), atPx, isAfter)}`;
		return `<text class="small" x="0" y="${yPx + 10}">${escaped(label)}</text>${drawn(before, yPx - 4, false)}${drawn(after, yPx + 14, true)}`;
	});
	const marks = scale.marksV.map((levelV) => {
		const xPx = place(scale.at(levelV));
		return `<path class="ink-line" d="M${xPx} ${footPx} v7"/><text class="small" x="${xPx}" y="${footPx + 24}" text-anchor="middle">${escaped(voltageWords(levelV))}</text>`;
	});
	return [
		`<svg class="chart" viewBox="0 0 ${widthPx} ${footPx + 54}" role="img" aria-label="${escaped(say`Input for the standard output, before and after`)}" xmlns="http://www.w3.org/2000/svg">`,
		...rows,
		`<path class="ink-line" d="M120 ${footPx} H${widthPx - 60}"/>`,
		...marks,
		`<text class="small" x="120" y="${footPx + 48}">${escaped(say`input for 50 mW: open before, filled after; less is better`)}</text>`,
		'</svg>',
	].join('');
}

/** From this width on a scale of five decades has room for a figure at each. */
const roomyPx = 340;

/** A point of the AVC curve. */
interface AvcPoint {
	readonly inputV: number;
	readonly outputV: number;
}

/**
 * Output against input, decibels below the strongest; before dashed with open points, after drawn through.
 * @param widthPx of the picture: as wide as it is shown, so that its words stay legible
 */
export function avcChart(
	before: readonly AvcPoint[],
	after: readonly AvcPoint[],
	widthPx: number,
	{ say }: Language = usualLanguage,
): string {
	const strongestV = Math.max(...[...before, ...after].map(({ outputV }) => outputV));
	const downDb = (outputV: number): number => 20 * Math.log10(outputV / strongestV);
	const weakestDb = Math.min(...[...before, ...after].map(({ outputV }) => downDb(outputV)));
	const lowestDb = Math.min(-20, 10 * Math.floor(weakestDb / 10));
	const heightPx = 200;
	const yAt = (levelDb: number): number => 12 + (levelDb / lowestDb) * (heightPx - 24);
	const { at, marksV } = decades(1e-5, 0.1, 70, widthPx - 40);
	const line = (points: readonly AvcPoint[], isAfter: boolean): string =>
		points.length === 0
			? ''
			: [
					`<path class="ink-line${isAfter ? '' : ' dashed'}" d="${points.map(({ inputV, outputV }, k) => `${k === 0 ? 'M' : 'L'}${place(at(inputV))} ${place(yAt(downDb(outputV)))}`).join(' ')}"/>`,
					...points.map(({ inputV, outputV }) => dot(at(inputV), yAt(downDb(outputV)), isAfter)),
				].join('');
	const rungsDb = Array.from({ length: Math.floor(-lowestDb / 10) + 1 }, (_, k) => -10 * k);
	return [
		`<svg class="chart" viewBox="0 0 ${widthPx} ${heightPx + 50}" role="img" aria-label="${escaped(say`AVC: output against input`)}" xmlns="http://www.w3.org/2000/svg">`,
		`<path class="ink-line" d="M70 12 V${heightPx - 6} H${widthPx - 40}"/>`,
		...rungsDb.map(
			(levelDb) =>
				`<path class="ink-line" d="M64 ${place(yAt(levelDb))} h6"/><text class="small" x="58" y="${place(yAt(levelDb) + 5)}" text-anchor="end">${decimalWords(levelDb, 0)}${levelDb === 0 ? ' dB' : ''}</text>`,
		),
		...marksV
			.filter((_, k) => widthPx >= roomyPx || k % 2 === 0)
			.map(
				(levelV) =>
					`<text class="small" x="${place(at(levelV))}" y="${heightPx + 16}" text-anchor="middle">${escaped(voltageWords(levelV))}</text>`,
			),
		line(before, false),
		line(after, true),
		`<text class="small" x="70" y="${heightPx + 42}">${escaped(before.length > 0 && after.length > 0 ? say`input; open before, filled after` : say`input`)}</text>`,
		'</svg>',
	].join('');
}
