import { besselI0Scaled, besselI1Scaled } from '#core/numeric/bessel.ts';
import { DiodePulse } from './diode-pulse.ts';
import type { SetValues } from './values.ts';

/**
 * Vacuum diode: current exponential in its voltage, no reverse current.
 * Its contact bias of about a quarter volt across half a megohm follows from these two figures (chosen).
 */
export const diode = { scaleA: 12e-6, slopeV: 0.09 } as const;

/** Currents of the diode, amperes, over one cycle of the carrier. */
export interface DiodeCurrents {
	/** Mean current into the load. */
	readonly meanA: number;
	/** Peak of the fundamental in phase with the carrier. */
	readonly fundamentalA: number;
	/** Peak of the fundamental a quarter cycle ahead of the carrier. */
	readonly leadingA: number;
}

/**
 * The diode between the last tank and its reservoir. It takes its charge in one pulse a cycle, and what it has taken so far holds the rest back.
 * Without that effect the mean current is I0(x) and the fundamental 2 I1(x) times Is exp(-V/vt), x = amplitude / vt.
 */
export class DiodeLaw {
	/** Mean current at which one pulse moves tank and reservoir by the slope voltage against each other, amperes. */
	readonly pulseA: number;
	readonly #pulse = new DiodePulse();

	constructor({ windings, detector, ifHz }: SetValues) {
		const tankF = windings[3]?.farad ?? Number.POSITIVE_INFINITY;
		this.pulseA = (diode.slopeV * ifHz) / (1 / tankF + 1 / detector.reservoirF);
	}

	/** Currents for a carrier of `amplitudeV` peak on the anode and `loadV` at the cathode, both the means over a cycle. */
	currents(amplitudeV: number, loadV: number): DiodeCurrents {
		const x = amplitudeV / diode.slopeV;
		const zero = besselI0Scaled(x);
		const lnFree = Math.log((diode.scaleA * zero) / this.pulseA) + x - loadV / diode.slopeV;
		let charge = 2 * Math.asinh(Math.exp(Math.min(lnFree, 300)) / 2);
		for (let step = 0; step < 8; step++) {
			this.#pulse.read(x, charge);
			const next = 2 * Math.asinh(Math.exp(Math.min(lnFree - this.#pulse.lnHeld, 300)) / 2);
			const moved = Math.abs(next - charge);
			charge = next;
			if (moved < 1e-9 * charge) break;
		}
		return this.#shaped(x, charge);
	}

	/** Volts at the diode's load when only direct current counts: the root of mean(A, V) = V / loadOhm, by Newton's steps. */
	loadVoltage(amplitudeV: number, loadOhm: number): number {
		const x = amplitudeV / diode.slopeV;
		// v / vt + ln(2 sinh(y/2)) + held(x, y) = ln(scale I0 / pulse) with y = v / (pulse ohm): monotone in v.
		const right = Math.log((diode.scaleA * besselI0Scaled(x)) / this.pulseA) + x;
		const perVolt = 1 / (this.pulseA * loadOhm);
		let loadV = Math.max(diode.slopeV, amplitudeV * 0.9);
		for (let step = 0; step < 60; step++) {
			const charge = loadV * perVolt;
			this.#pulse.read(x, charge);
			// ln(2 sinh(y/2)) = y/2 + ln(1 - e^-y), without overflow.
			const miss = loadV / diode.slopeV + charge / 2 + Math.log(-Math.expm1(-charge)) + this.#pulse.lnHeld - right;
			const next = loadV - miss / (1 / diode.slopeV + perVolt * (0.5 / Math.tanh(charge / 2) + this.#pulse.lnHeldByY));
			const moved = Math.abs(next - loadV);
			loadV = next > 0 ? next : loadV / 10;
			if (moved < 1e-10 * loadV) break;
		}
		return loadV;
	}

	#shaped(x: number, y: number): DiodeCurrents {
		this.#pulse.read(x, y);
		const meanA = this.pulseA * y;
		return {
			meanA,
			fundamentalA: 2 * meanA * (besselI1Scaled(x) / besselI0Scaled(x) + this.#pulse.cosine),
			leadingA: 2 * meanA * this.#pulse.sine,
		};
	}
}
