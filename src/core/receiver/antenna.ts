import { dummyImpedance } from '#core/circuit/dummy-antenna.ts';
import { ground, stampAdmittance, stampCoupledCoils } from '#core/circuit/stamp.ts';
import { complexMatrix, factorInPlace, solveFactored } from '#core/numeric/complex-matrix.ts';
import type { SignalInto } from './position.ts';
import type { SetValues } from './values.ts';

/** An insulated wire near the converter's grid (chosen). */
const looseF = 1e-12;

const primary = 0;
const secondary = 1;

/** Series impedance from the generator to the antenna coil: dummy antenna and wave trap. */
function leadImpedance({ trap }: SetValues, omega: number): { re: number; im: number } {
	const dummy = dummyImpedance(omega / (2 * Math.PI));
	// trap: coil and condenser side by side
	const yRe = trap.ohm / (trap.ohm ** 2 + (omega * trap.henry) ** 2);
	const yIm = omega * trap.farad - (omega * trap.henry) / (trap.ohm ** 2 + (omega * trap.henry) ** 2);
	const yWeight = yRe * yRe + yIm * yIm;
	return {
		re: dummy.re + yRe / yWeight,
		im: dummy.im - yIm / yWeight,
	};
}

/** The antenna circuits at one frequency after another. */
export class AntennaCircuit {
	readonly #values: SetValues;
	readonly #matrix = complexMatrix(2);
	readonly #order = new Int32Array(2);
	readonly #rightRe = new Float64Array(2);
	readonly #rightIm = new Float64Array(2);
	readonly #xRe = new Float64Array(2);
	readonly #xIm = new Float64Array(2);

	constructor(values: SetValues) {
		this.#values = values;
	}

	/** Volts at the converter's grid for a volt of generator, open circuit: real and imaginary part. */
	transfer(frequencyHz: number, into: SignalInto): readonly [number, number] {
		if (into === 'converter grid') return [1, 0];
		const { antenna } = this.#values;
		const omega = 2 * Math.PI * frequencyHz;
		const matrix = this.#matrix;
		matrix.re.fill(0);
		matrix.im.fill(0);
		const rise = frequencyHz / antenna.ohmHz;
		stampCoupledCoils(
			matrix,
			primary,
			secondary,
			{
				firstH: antenna.primaryH,
				firstOhm: antenna.primaryOhm * rise,
				secondH: antenna.secondaryH,
				secondOhm: antenna.secondaryOhm * rise,
				mutualH: antenna.mutualH,
			},
			omega,
		);
		stampAdmittance(matrix, primary, secondary, 0, omega * antenna.topF);
		stampAdmittance(matrix, secondary, ground, 0, omega * antenna.farad);
		const lead = leadImpedance(this.#values, omega);
		const weight = lead.re * lead.re + lead.im * lead.im;
		const leadRe = lead.re / weight;
		const leadIm = -lead.im / weight;
		stampAdmittance(matrix, primary, ground, leadRe, leadIm);
		this.#rightRe.fill(0);
		this.#rightIm.fill(0);
		if (into === 'antenna') {
			this.#rightRe[primary] = leadRe;
			this.#rightIm[primary] = leadIm;
		} else {
			stampAdmittance(matrix, secondary, ground, 0, omega * looseF);
			this.#rightIm[secondary] = omega * looseF;
		}
		factorInPlace(matrix, this.#order);
		solveFactored(matrix, this.#order, this.#rightRe, this.#rightIm, this.#xRe, this.#xIm);
		return [this.#xRe[secondary] as number, this.#xIm[secondary] as number];
	}
}
