/** How fast a resistor and a capacitor follow, as in an AVC line. */
export interface TimeConstant {
	/** Resistance times capacitance: the time to 63 % of a step. */
	readonly constantS: number;
	/** Time to 95 % of a step: three time constants. */
	readonly settledS: number;
	/** Where the filter is 3 dB down. */
	readonly cornerHz: number;
	/** What it leaves of a 400-c tone on the line, decibels of the tone. */
	readonly tone400Db: number;
}

/**
 * Time constant of a resistance and a capacitance, alone: the loop of an AVC settles faster than its filter when the signal rises.
 * @example timeConstant(1e6, 0.1e-6).constantS // => ~0.1
 */
export function timeConstant(resistanceOhm: number, capacitanceF: number): TimeConstant {
	const constantS = resistanceOhm * capacitanceF;
	if (!(constantS > 0)) throw new Error(`invalid time constant: ${constantS} s, expected one above 0`);
	return {
		constantS,
		settledS: -Math.log(0.05) * constantS,
		cornerHz: 1 / (2 * Math.PI * constantS),
		tone400Db: -10 * Math.log10(1 + (2 * Math.PI * 400 * constantS) ** 2),
	};
}
