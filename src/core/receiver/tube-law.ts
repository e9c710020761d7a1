import { exponentialSwing } from '#core/numeric/bessel.ts';

/**
 * Remote cut-off: transconductance falls with bias as a steep and a flat exponential together.
 * Chosen (shares and volts from memory of the type's curves, no published figure opened).
 */
export const remoteCutOff = [
	{ share: 0.75, volt: 3.5 },
	{ share: 0.25, volt: 8.5 },
] as const;

/**
 * Share of a remote cut-off tube's transconductance that is left.
 * @param biasV volts of AVC, 0 or negative
 * @param swingV peak volts of the signal on the grid: the average over the swing, exact for this law
 */
export function tubeShare(biasV: number, swingV: number): number {
	// A signal that would drive a tube further up its curve meets grid current: it is steeper by a fifth at most (chosen).
	const bias = Math.min(biasV, 0);
	let share = 0;
	for (let k = 0; k < remoteCutOff.length; k++) {
		const part = remoteCutOff[k] as (typeof remoteCutOff)[number];
		share += part.share * Math.exp(bias / part.volt) * exponentialSwing(Math.min(swingV / part.volt, 40));
	}
	return Math.min(share, 1.2);
}
