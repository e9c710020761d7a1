import { ground, stampAdmittance, stampCoupledCoils, stampTransconductance } from '#core/circuit/stamp.ts';
import { type Complex, complex } from '#core/numeric/complex.ts';
import { type ComplexMatrix, complexMatrix, factorInPlace, solveFactored } from '#core/numeric/complex-matrix.ts';
import type { SetValues, WindingValues } from './values.ts';

/** Nodes of the strip: converter's plate, IF tube's grid, IF tube's plate, diode's anode. */
export const node = { converterPlate: 0, ifGrid: 1, ifPlate: 2, diode: 3 } as const;

/** The IF strip's nodal equations at one frequency, to be solved again and again with other tube and diode admittances. */
export class IfStrip {
	readonly #values: SetValues;
	readonly #passive = complexMatrix(4);
	readonly #matrix: ComplexMatrix = complexMatrix(4);
	readonly #order = new Int32Array(4);
	readonly #rightRe = new Float64Array(4);
	readonly #rightIm = new Float64Array(4);
	readonly #xRe = new Float64Array(4);
	readonly #xIm = new Float64Array(4);

	constructor(values: SetValues) {
		this.#values = values;
	}

	/** Takes the strip to a frequency. */
	tune(frequencyHz: number): void {
		const { windings, mutualH, tubes } = this.#values;
		const omega = 2 * Math.PI * frequencyHz;
		const matrix = this.#passive;
		matrix.re.fill(0);
		matrix.im.fill(0);
		for (let transformer = 0; transformer < 2; transformer++) {
			const first = windings[2 * transformer] as WindingValues;
			const second = windings[2 * transformer + 1] as WindingValues;
			const coils = {
				firstH: first.henry,
				firstOhm: first.ohm,
				secondH: second.henry,
				secondOhm: second.ohm,
				mutualH: mutualH[transformer as 0 | 1],
			};
			stampCoupledCoils(matrix, 2 * transformer, 2 * transformer + 1, coils, omega);
		}
		windings.forEach((winding, at) => {
			stampAdmittance(matrix, at, ground, winding.siemens, omega * winding.farad);
		});
		stampAdmittance(matrix, node.converterPlate, ground, 1 / tubes.converterPlateOhm, 0);
		stampAdmittance(matrix, node.ifPlate, ground, 1 / tubes.ifTubePlateOhm, 0);
		stampAdmittance(matrix, node.ifGrid, node.ifPlate, 0, omega * tubes.feedbackF);
	}

	/**
	 * Sets the IF tube's transconductance and the diode's conductance, and factors.
	 * @param ifTubeS siemens now, AVC and swing counted
	 */
	load(ifTubeS: number, diodeS: number, diodeSusceptanceS = 0): void {
		this.#matrix.re.set(this.#passive.re);
		this.#matrix.im.set(this.#passive.im);
		stampTransconductance(this.#matrix, node.ifPlate, node.ifGrid, ifTubeS);
		stampAdmittance(this.#matrix, node.diode, ground, diodeS, diodeSusceptanceS);
		factorInPlace(this.#matrix, this.#order);
	}

	/** Solves for a current into one node, amperes. */
	drive(at: number, current: Complex): void {
		this.#rightRe.fill(0);
		this.#rightIm.fill(0);
		this.#rightRe[at] = current.re;
		this.#rightIm[at] = current.im;
		solveFactored(this.#matrix, this.#order, this.#rightRe, this.#rightIm, this.#xRe, this.#xIm);
	}

	/** Voltage of a node in the last solution. */
	voltage(at: number): Complex {
		return complex(this.#xRe[at] as number, this.#xIm[at] as number);
	}
}
