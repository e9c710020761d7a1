import { place } from './svg.ts';

/** Size of the picture of a waveform, in its own pixels. */
export const waveformPx = { width: 320, height: 110 } as const;

/**
 * A waveform as the path of an SVG: from left to right, its largest size filling the height.
 * @param values at least two
 */
export function waveformPath(values: ArrayLike<number>): string {
	const all = Array.from(values);
	const most = Math.max(...all.map(Math.abs), Number.MIN_VALUE);
	const { width, height } = waveformPx;
	const points = all.map((value, index) => {
		const x = (index / (all.length - 1)) * width;
		const y = height / 2 - (value / most) * (height / 2 - 3);
		return `${place(x)} ${place(y)}`;
	});
	return `M${points.join(' L')}`;
}
