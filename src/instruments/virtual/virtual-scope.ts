import type { Estimate } from '#core/numeric/estimate.ts';
import { oneTwoFive } from '#core/numeric/one-two-five.ts';
import type { SetSignal } from '#core/receiver/signal.ts';

/** Divisions of a scope's graticule, up and across. */
export const graticule = { high: 8, wide: 10 } as const;
/** A height on the screen is read to so much, divisions of one standard deviation (chosen: about as thick as a trace). */
const readDivisions = 0.1;
/** The finest vertical setting, volts a division (chosen: an old service scope's). */
const finestV = 2e-3;
/** Whole cycles of the tone that are looked at, about. */
const cycles = 2;

/** A modulated carrier on the screen of a scope; heights are from edge to edge of the band that it draws. */
export interface ScreenLook {
	readonly voltsPerDivision: number;
	readonly secondsPerDivision: number;
	/** Read off the graticule, divisions. */
	readonly crest: Estimate;
	readonly trough: Estimate;
	/** Upper edge of the band at even steps from the left to the right side, divisions above the middle. */
	readonly edge: readonly number[];
}

const asRead = (divisions: number): Estimate => ({
	value: readDivisions * Math.round(divisions / readDivisions),
	uncertainty: readDivisions,
});

/** What a scope shows at a generator's own lead; `null` where that is too weak for it. */
export function screenLook({ levelV, depth, toneHz }: SetSignal): ScreenLook | null {
	const peakV = levelV * Math.SQRT2;
	const crestV = 2 * peakV * (1 + depth);
	const voltsPerDivision = oneTwoFive(Math.max(crestV / graticule.high, Number.MIN_VALUE));
	if (voltsPerDivision < finestV) return null;
	const secondsPerDivision = oneTwoFive(cycles / toneHz / graticule.wide);
	const points = 200;
	return {
		voltsPerDivision,
		secondsPerDivision,
		crest: asRead(crestV / voltsPerDivision),
		trough: asRead((2 * peakV * (1 - depth)) / voltsPerDivision),
		edge: Array.from({ length: points + 1 }, (_, k) => {
			const atS = (k / points) * graticule.wide * secondsPerDivision;
			return (peakV * (1 + depth * Math.cos(2 * Math.PI * toneHz * atS))) / voltsPerDivision;
		}),
	};
}
