/** Mica between two springs: the gap closes as the screw goes in, and the capacitance goes as one over the gap. */
export interface CompressionLaw {
	readonly kind: 'compression';
	readonly leastF: number;
	readonly mostF: number;
	readonly travelTurns: number;
}

/** A core that passes through its winding: most inductance with the core in the middle, so that each value is met twice. */
export interface SlugLaw {
	readonly kind: 'slug';
	/** Inductance with the core far outside. */
	readonly airH: number;
	/** Share that the centred core adds, such as 0.3. */
	readonly rise: number;
	/** Half of the length over which the core acts, turns. */
	readonly reachTurns: number;
	readonly travelTurns: number;
}

/** How an adjuster's value follows its screw; turns count clockwise from the stop that is fully counter-clockwise. */
export type AdjusterLaw = CompressionLaw | SlugLaw;

/** Value of an adjuster, farads or henries by its kind; beyond a stop the stop's value. */
export function adjusterValue(law: AdjusterLaw, turns: number): number {
	const at = Math.min(Math.max(turns, 0), law.travelTurns);
	if (law.kind === 'compression') {
		const open = 1 / law.leastF;
		const closed = 1 / law.mostF;
		return 1 / (open + ((closed - open) * at) / law.travelTurns);
	}
	const off = (at - law.travelTurns / 2) / law.reachTurns;
	return law.airH * (1 + law.rise * Math.exp(-off * off));
}

/** The turns that give a value, the first met from the counter-clockwise stop; beyond its range the end that comes nearest. */
export function turnsFor(law: AdjusterLaw, value: number): number {
	if (law.kind === 'compression') {
		const open = 1 / law.leastF;
		const closed = 1 / law.mostF;
		const share = (1 / value - open) / (closed - open);
		return law.travelTurns * Math.min(Math.max(share, 0), 1);
	}
	const share = (value / law.airH - 1) / law.rise;
	if (share >= 1) return law.travelTurns / 2;
	const off = share <= 0 ? Number.POSITIVE_INFINITY : Math.sqrt(-Math.log(share)) * law.reachTurns;
	return Math.max(law.travelTurns / 2 - off, 0);
}
