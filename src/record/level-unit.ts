/** Reference of dBm: a milliwatt in 50 ohms. */
const referenceW = 1e-3;
const loadOhm = 50;

/**
 * Decibels of a milliwatt in a matched 50-ohm load, of a generator with these open-circuit volts rms: P = (V / 2)^2 / 50.
 * @example decibelsOf(0.4472) // => ~-0.0003
 */
export function decibelsOf(openCircuitV: number): number {
	return 10 * Math.log10((openCircuitV / 2) ** 2 / loadOhm / referenceW);
}

/**
 * Open-circuit volts rms of a generator that gives so many decibels of a milliwatt to a matched 50-ohm load.
 * @example voltsOf(0) // => ~0.44721
 */
export function voltsOf(levelDb: number): number {
	return 2 * Math.sqrt(loadOhm * referenceW * 10 ** (levelDb / 10));
}
