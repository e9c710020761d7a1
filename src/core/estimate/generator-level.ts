import type { Estimate } from '#core/numeric/estimate.ts';

const dbPerNeper = 20 / Math.LN10;

/** A generator's leakage. */
export interface Leakage {
	/** Signal that reaches the set with the attenuator down and the lead off, as open-circuit volts at the lead. */
	readonly leakV: Estimate;
	/** Level from which leakage in step or out of step changes the signal by less than 1 dB. */
	readonly leastUsefulV: number;
}

/** A known level reads at least so much above the leak, decibels (chosen: the leak then changes that reading by at most 2). */
export const leastAboveLeakDb = 14;

/**
 * Leakage from a reading with the attenuator down and the lead off, against a reading at a known level; both in proportion to the signal.
 * Signal and leak add as voltages: at 19.3 dB above the leak the worst that it can do to the signal, out of step, is 1 dB. In the known reading too: what the leak
 * may have changed it by counts in the uncertainty.
 */
export function leakage(knownV: number, knownReadDb: Estimate, leakReadDb: Estimate): Leakage {
	const aboveDb = knownReadDb.value - leakReadDb.value;
	const leakV = knownV * 10 ** (-aboveDb / 20);
	// In step or out of step, either way: a uniform chance within the worst case.
	const worstDb = (dbPerNeper * 10 ** (-aboveDb / 20)) / Math.sqrt(3);
	const uncertain = knownReadDb.uncertainty === null || leakReadDb.uncertainty === null;
	return {
		leakV: {
			value: leakV,
			uncertainty: uncertain
				? null
				: (leakV * Math.hypot(knownReadDb.uncertainty ?? 0, leakReadDb.uncertainty ?? 0, worstDb)) / dbPerNeper,
		},
		// The worst case is the leak out of step: 1 - leak / signal = 10^(-1/20).
		leastUsefulV: leakV / (1 - 10 ** (-1 / 20)),
	};
}

/**
 * Modulation depth from the crest and the trough of the carrier's envelope, in any one unit: (crest - trough) / (crest + trough) [frenzel] ex. 3.1.
 * @example depthFromEnvelope({ value: 5.9, uncertainty: 0 }, { value: 1.2, uncertainty: 0 }).value // => ~0.662
 */
export function depthFromEnvelope(crest: Estimate, trough: Estimate): Estimate {
	const sum = crest.value + trough.value;
	const uncertain = crest.uncertainty === null || trough.uncertainty === null;
	return {
		value: (crest.value - trough.value) / sum,
		// By crest 2 trough / sum squared, by trough 2 crest / sum squared.
		uncertainty: uncertain
			? null
			: (2 * Math.hypot(trough.value * (crest.uncertainty ?? 0), crest.value * (trough.uncertainty ?? 0))) / sum ** 2,
	};
}

/**
 * Modulation depth from how far one sideband stands below the carrier: each sideband has half the depth.
 * @param belowCarrierDb mean of the two sidebands, decibels below the carrier, positive
 * @example depthFromSidebands({ value: 6.0206, uncertainty: 0 }).value // => ~1.0000
 */
export function depthFromSidebands({ value: belowCarrierDb, uncertainty }: Estimate): Estimate {
	const value = 2 * 10 ** (-belowCarrierDb / 20);
	return { value, uncertainty: uncertainty === null ? null : (value * uncertainty) / dbPerNeper };
}
