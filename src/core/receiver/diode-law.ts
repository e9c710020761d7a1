import { besselI0Scaled, besselI1Scaled } from '#core/numeric/bessel.ts';

/**
 * Vacuum diode: current exponential in its voltage, no reverse current.
 * Its contact bias of about a quarter volt across half a megohm follows from these two figures (chosen).
 */
export const diode = { scaleA: 12e-6, slopeV: 0.09 } as const;

/** Currents of the diode, amperes, over one cycle of the carrier. */
export interface DiodeCurrents {
	/** Mean current into the load. */
	readonly meanA: number;
	/** Peak of the fundamental, in phase with the carrier. */
	readonly fundamentalA: number;
}

/**
 * Currents of the diode with a carrier of `amplitudeV` peak on its anode and `loadV` at its cathode:
 * mean I0(x) and fundamental 2 I1(x) times Is exp(-V/vt), x = amplitude / vt.
 */
export function diodeCurrents(amplitudeV: number, loadV: number): DiodeCurrents {
	const x = amplitudeV / diode.slopeV;
	const scale = diode.scaleA * Math.exp(x - loadV / diode.slopeV);
	return { meanA: scale * besselI0Scaled(x), fundamentalA: 2 * scale * besselI1Scaled(x) };
}

/** Volts at the diode's load when only direct current counts: the root of mean(A, V) = V / loadOhm, by Newton's steps. */
export function loadVoltage(amplitudeV: number, loadOhm: number): number {
	const x = amplitudeV / diode.slopeV;
	// v / slope + ln v = ln(scale * ohm * I0): monotone in v.
	const right = Math.log(diode.scaleA * loadOhm * besselI0Scaled(x)) + x;
	let loadV = Math.max(diode.slopeV, amplitudeV * 0.9);
	for (let step = 0; step < 60; step++) {
		const miss = loadV / diode.slopeV + Math.log(loadV) - right;
		const next = loadV - miss / (1 / diode.slopeV + 1 / loadV);
		const moved = Math.abs(next - loadV);
		loadV = next > 0 ? next : loadV / 10;
		if (moved < 1e-13 * loadV) break;
	}
	return loadV;
}
