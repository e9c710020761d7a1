import { dummyImpedance } from '#core/circuit/dummy-antenna.ts';
import { ground, stampAdmittance, stampCoupledCoils } from '#core/circuit/stamp.ts';
import { type Complex, complex, over, plus } from '#core/numeric/complex.ts';
import { complexMatrix, factorInPlace, solveFactored } from '#core/numeric/complex-matrix.ts';
import type { SignalInto } from './signal.ts';
import type { SetValues } from './values.ts';

/** An insulated wire near the converter's grid (chosen). */
const looseF = 1e-12;

const primary = 0;
const secondary = 1;

/** Series impedance from the generator to the antenna coil: dummy antenna and wave trap. */
function leadImpedance({ trap }: SetValues, omega: number): Complex {
	const one = complex(1, 0);
	const coil = over(one, complex(trap.ohm, omega * trap.henry));
	const acrossTrap = over(one, plus(coil, complex(0, omega * trap.farad)));
	return plus(dummyImpedance(omega / (2 * Math.PI)), acrossTrap);
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

	/** Volts at the converter's grid for a volt of generator, open circuit: its size and phase. */
	transfer(frequencyHz: number, into: SignalInto): Complex {
		if (into === 'converter grid') return complex(1, 0);
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
		const lead = over(complex(1, 0), leadImpedance(this.#values, omega));
		stampAdmittance(matrix, primary, ground, lead.re, lead.im);
		this.#rightRe.fill(0);
		this.#rightIm.fill(0);
		if (into === 'antenna') {
			this.#rightRe[primary] = lead.re;
			this.#rightIm[primary] = lead.im;
		} else {
			stampAdmittance(matrix, secondary, ground, 0, omega * looseF);
			this.#rightIm[secondary] = omega * looseF;
		}
		factorInPlace(matrix, this.#order);
		solveFactored(matrix, this.#order, this.#rightRe, this.#rightIm, this.#xRe, this.#xIm);
		return complex(this.#xRe[secondary] as number, this.#xIm[secondary] as number);
	}
}
