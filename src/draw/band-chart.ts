import { type Language, usualLanguage } from '#record/language.ts';
import { escaped, place } from './svg.ts';
import { tickStep } from './tick-step.ts';

/** One line of a chart over a band. */
export interface BandLine {
	readonly words: string;
	readonly kind: 'plain' | 'dashed';
	readonly points: readonly { readonly dialHz: number; readonly value: number }[];
}

const heightPx = 260;
/** Width of a letter of the words at the lines' ends. */
const letterPx = 7.5;
/** A scale with fewer marks than these cannot be read. */
const leastTicks = 4;

const round = (value: number): string => String(Number(value.toPrecision(6)));

/**
 * Lines over a band as SVG text, labelled at their ends.
 * @param unit of the values, as they are labelled
 * @param widthPx of the picture: as wide as it is shown, so that its words stay legible
 * @param said what the picture shows, for those who cannot see it
 */
export function bandChart(
	lines: readonly BandLine[],
	unit: string,
	said: string,
	widthPx: number,
	{ say }: Language = usualLanguage,
): string {
	const longest = Math.max(...lines.map(({ words }) => words.length));
	const box = { leftPx: 52, rightPx: widthPx - 16 - letterPx * longest, topPx: 30, bottomPx: 216 } as const;
	const all = lines.flatMap(({ points }) => points);
	const lowHz = Math.min(...all.map(({ dialHz }) => dialHz));
	const highHz = Math.max(...all.map(({ dialHz }) => dialHz));
	const least = Math.min(0, ...all.map(({ value }) => value));
	const most = Math.max(1, ...all.map(({ value }) => value));
	const x = (dialHz: number): number => box.leftPx + ((dialHz - lowHz) / (highHz - lowHz)) * (box.rightPx - box.leftPx);
	const y = (value: number): number => box.bottomPx - ((value - least) / (most - least)) * (box.bottomPx - box.topPx);
	const across = tickStep((highHz - lowHz) / 1e3, Math.max(leastTicks, (box.rightPx - box.leftPx) / 60)) * 1e3;
	const up = tickStep(most - least, 5);
	const dials = Array.from({ length: 20 }, (_, k) => Math.ceil(lowHz / across + k) * across).filter(
		(dialHz) => dialHz <= highHz,
	);
	const values = Array.from({ length: 20 }, (_, k) => Math.ceil(least / up + k) * up).filter(
		(value) => value <= most + 1e-9,
	);
	let lastEndPx = Number.NEGATIVE_INFINITY;
	const ends = lines
		.map((line) => ({ line, endPx: y(line.points.at(-1)?.value ?? 0) }))
		.sort((one, other) => one.endPx - other.endPx)
		.map(({ line, endPx }) => {
			lastEndPx = Math.max(endPx, lastEndPx + 20);
			return { line, endPx: lastEndPx };
		});
	return [
		`<svg class="band-chart" viewBox="0 0 ${widthPx} ${heightPx}" role="img" aria-label="${escaped(said)}" xmlns="http://www.w3.org/2000/svg">`,
		`<path class="ink-line" d="M${box.leftPx} ${box.topPx} V${box.bottomPx} H${box.rightPx}"/>`,
		least < 0 ? `<path class="hair" d="M${box.leftPx} ${place(y(0))} H${box.rightPx}"/>` : '',
		...dials.map(
			(dialHz) =>
				`<path class="ink-line" d="M${place(x(dialHz))} ${box.bottomPx} v6"/><text class="small" x="${place(x(dialHz))}" y="${box.bottomPx + 22}" text-anchor="middle">${round(dialHz / 1e3)}</text>`,
		),
		...values.map(
			(value) =>
				`<path class="ink-line" d="M${box.leftPx} ${place(y(value))} h-6"/><text class="small" x="${box.leftPx - 10}" y="${place(y(value) + 5)}" text-anchor="end">${value < 0 ? '\u2212' : ''}${round(Math.abs(value))}</text>`,
		),
		`<text class="small" x="${box.rightPx}" y="${box.bottomPx + 40}" text-anchor="end">${escaped(say`dial, kc`)}</text>`,
		`<text class="small" x="${box.leftPx}" y="18">${escaped(unit)}</text>`,
		...lines.map(
			({ kind, points }) =>
				`<path class="ink-line${kind === 'dashed' ? ' dashed' : ''}" d="${points.map(({ dialHz, value }, k) => `${k === 0 ? 'M' : 'L'}${place(x(dialHz))} ${place(y(value))}`).join(' ')}"/>`,
		),
		...ends.map(
			({ line, endPx }) =>
				`<text class="small" x="${box.rightPx + 8}" y="${place(endPx + 5)}">${escaped(line.words)}</text>`,
		),
		'</svg>',
	].join('');
}
