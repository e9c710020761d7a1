/** One section of a tuning condenser. */
export interface GangLaw {
	readonly leastF: number;
	readonly mostF: number;
	/** Exponent of the plates' law: 1 is straight-line capacitance; broadcast gangs lie between 1.5 and 2.5 (common practice). */
	readonly exponent: number;
}

/**
 * Capacitance of a section, farads.
 * @param tuning 0 with the plates fully meshed to 1 fully open
 */
export function gangFarad(law: GangLaw, tuning: number): number {
	const meshed = Math.min(Math.max(1 - tuning, 0), 1);
	return law.leastF + (law.mostF - law.leastF) * meshed ** law.exponent;
}

/** Where the gang stands for a capacitance, 0 meshed to 1 open; beyond its range the nearer end. */
export function gangTuning(law: GangLaw, farad: number): number {
	const share = (farad - law.leastF) / (law.mostF - law.leastF);
	return 1 - Math.min(Math.max(share, 0), 1) ** (1 / law.exponent);
}
