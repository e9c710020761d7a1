import { decimalWords } from '#record/quantity-words.ts';
import { place } from './svg.ts';
import { tickStep } from './tick-step.ts';

/** How a generator comes to rest, as it is drawn. */
export interface WarmUpPlot {
	/** In order of time, seconds since it was switched on. */
	readonly readings: readonly { readonly atS: number; readonly frequencyHz: number }[];
	/** From here on it is ready, seconds; `null` when it is not yet. */
	readonly readyAtS: number | null;
	/** Most drift of a generator that is ready, hertz. */
	readonly limitHz: number;
	readonly widthPx: number;
	readonly heightPx: number;
}

const edge = { left: 70, right: 16, top: 18, bottom: 40 } as const;
/** Multiples of a step within a reach. */
function multiples(least: number, most: number, step: number): number[] {
	const first = Math.ceil(least / step);
	return Array.from({ length: Math.floor(most / step) - first + 1 }, (_, k) => (first + k) * step);
}

/** Frequency against time as SVG text: cycles from the last reading, the limit as a band about it, and from when on the generator is ready. */
export function warmUpPlot({ readings, readyAtS, limitHz, widthPx, heightPx }: WarmUpPlot): string {
	const last = readings.at(-1);
	if (!last) return '';
	const offsHz = readings.map(({ frequencyHz }) => frequencyHz - last.frequencyHz);
	const lowHz = Math.min(-limitHz, ...offsHz) * 1.08;
	const highHz = Math.max(limitHz, ...offsHz) * 1.08;
	const endS = Math.max(600, last.atS) * 1.03;
	const x = (atS: number): number => edge.left + (atS / endS) * (widthPx - edge.left - edge.right);
	const y = (offHz: number): number =>
		edge.top + ((highHz - offHz) / (highHz - lowHz)) * (heightPx - edge.top - edge.bottom);
	const bottom = heightPx - edge.bottom;
	const times = multiples(0, endS / 60, tickStep(endS / 60, 5)).map(
		(minutes) =>
			`<path class="ink-line" d="M${place(x(minutes * 60))} ${bottom} v5"/><text class="small" x="${place(x(minutes * 60))}" y="${bottom + 20}" text-anchor="middle">${minutes}</text>`,
	);
	const offs = multiples(lowHz, highHz, tickStep(highHz - lowHz, 5)).map(
		(offHz) =>
			`<path class="hair" d="M${edge.left} ${place(y(offHz))} H${widthPx - edge.right}"/><text class="small" x="${edge.left - 8}" y="${place(y(offHz) + 4)}" text-anchor="end">${decimalWords(offHz, 0)}</text>`,
	);
	const points = readings.map(({ atS }, k) => ({ xPx: place(x(atS)), yPx: place(y(offsHz[k] as number)) }));
	const ready =
		readyAtS === null
			? ''
			: `<path class="cursor" d="M${place(x(readyAtS))} ${edge.top} V${bottom}"/><text class="small" x="${place(x(readyAtS) + 4)}" y="${edge.top + 10}">ready</text>`;
	return [
		`<svg class="response" viewBox="0 0 ${widthPx} ${heightPx}" role="img" aria-label="Drift of the generator">`,
		`<rect class="band" x="${edge.left}" y="${place(y(limitHz / 2))}" width="${widthPx - edge.left - edge.right}" height="${place(y(-limitHz / 2) - y(limitHz / 2))}"/>`,
		...offs,
		...times,
		`<path class="ink-line" d="M${edge.left} ${edge.top} V${bottom} H${widthPx - edge.right}"/>`,
		`<path class="ink-line" d="M${points.map(({ xPx, yPx }) => `${xPx} ${yPx}`).join(' L')}"/>`,
		...points.map(({ xPx, yPx }) => `<circle class="point" cx="${xPx}" cy="${yPx}" r="3"/>`),
		ready,
		`<text class="small" x="${widthPx - edge.right}" y="${heightPx - 4}" text-anchor="end">minutes since switched on</text>`,
		`<text class="small" x="4" y="12">c from the last</text>`,
		'</svg>',
	].join('');
}
