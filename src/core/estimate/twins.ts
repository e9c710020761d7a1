import { pairings, tuningsOf, windingsFor } from './strip-start.ts';

/** How far apart the two windings of a can may lie that one sweep cannot tell from each other. */
export interface TwinBand {
	readonly leastApartHz: number;
	readonly mostApartHz: number;
}

/** Q and coupling, as a share of the critical, of IF transformers: chosen wide about common practice. */
const leastQ = 40;
const mostQ = 150;
const leastCoupling = 0.5;
const mostCoupling = 1.5;

/**
 * The spread of windings that have one and the same curve: coupling and a mistuning of a pair against itself look alike in one sweep. `null` when the resonances fit no such strip.
 * @param resonances eight parameters of the sweep's product of resonances
 */
export function twinBand(resonances: Float64Array, ifHz: number): TwinBand | null {
	const poles = tuningsOf(resonances);
	const apartHz: number[] = [];
	for (const [a, b, c, d] of pairings) {
		for (const [first, second] of [
			[poles[a], poles[b]],
			[poles[c], poles[d]],
		] as const) {
			for (let k = 0.001; k < 0.04; k *= 1.03) {
				const [one, other] = windingsFor(first, second, k / 2);
				if (one.im <= 0 || other.im <= 0) continue;
				const qs = [0.5 / one.im, 0.5 / other.im];
				const share = k * Math.sqrt((qs[0] as number) * (qs[1] as number));
				if (qs.some((q) => q < leastQ || q > mostQ) || share < leastCoupling || share > mostCoupling) continue;
				apartHz.push(Math.abs(one.re - other.re) * ifHz);
			}
		}
	}
	return apartHz.length === 0 ? null : { leastApartHz: Math.min(...apartHz), mostApartHz: Math.max(...apartHz) };
}
