/** Options that the commands about the dial share. */
import type { BandLimits, TiePoints } from '#core/circuit/tracking-curve.ts';
import { InputFault } from './command.ts';
import { readQuantity } from './input.ts';
import type { PartOptions } from './part-options.ts';

/** The two ends of a band, in either order. */
export function bandOption(options: PartOptions): BandLimits {
	const { least, most } = options.range('frequency', 'band', '540kc-1600kc');
	return { lowHz: least, highHz: most };
}

/** Tie points of an option, sorted; three unless two are asked for. */
export function tiePointsOption(options: PartOptions, name: string, count = 3): TiePoints {
	const words = options.words(name, '600kc,1000kc,1400kc');
	const points = words
		.split(',')
		.map((one) => readQuantity('frequency', `--${name}`, one))
		.sort((a, b) => a - b);
	if (points.length !== count || points.some((point, place) => point === points[place - 1])) {
		throw new InputFault(`--${name}: "${words}": give three different frequencies, such as 600kc,1000kc,1400kc`);
	}
	return points as unknown as TiePoints;
}

/** Dial points evenly from end to end, both ends among them, hertz. */
export function dialPointsHz({ lowHz, highHz }: BandLimits, count: number): readonly number[] {
	return Array.from({ length: count }, (_, place) => lowHz + ((highHz - lowHz) * place) / (count - 1));
}

/** An error as kilocycles with its sign. */
export function signedKc(errorHz: number): string {
	const kc = (Math.abs(errorHz) / 1e3).toFixed(1);
	return `${kc === '0.0' ? ' ' : errorHz > 0 ? '+' : '\u2212'}${kc} kc`;
}
