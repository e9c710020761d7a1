/** Options that the commands about the dial share. */
import type { BandLimits, TiePoints } from '#core/circuit/tracking-curve.ts';
import type { PartOptions } from './part-options.ts';

/** The two ends of a band, in either order. */
export function bandOption(options: PartOptions): BandLimits {
	return options.band();
}

/** Tie points of an option, sorted; three unless two are asked for. */
export function tiePointsOption(options: PartOptions, name: string, count = 3): TiePoints {
	return options.points(name, count) as unknown as TiePoints;
}

/** Dial points evenly from end to end, both ends among them, hertz. */
export function dialPointsHz({ lowHz, highHz }: BandLimits, count: number): readonly number[] {
	return Array.from({ length: count }, (_, place) => lowHz + ((highHz - lowHz) * place) / (count - 1));
}
