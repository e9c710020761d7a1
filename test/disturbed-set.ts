import type { Random } from '#core/numeric/random.ts';
import type { SetDesign } from '#core/receiver/design.ts';
import { factoryTurns, markTuning } from '#core/receiver/factory.ts';
import { oscillatorHz, setValues } from '#core/receiver/values.ts';

/** What is wrong with the oscillator and the dial of a simulated set. */
export interface Disturbance {
	trimmerF: number;
	padderShare: number;
	coilShare: number;
	pointerM: number;
	ifOffHz: number;
	/** Added over each quarter of the gang's turn, from open to meshed. */
	platesF: readonly [number, number, number, number];
}

/** A simulated receiver whose oscillator is off: read through its circuit, knowing nothing of how dials are judged. */
export class DisturbedSet {
	readonly design: SetDesign;
	off: Disturbance;

	constructor(design: SetDesign, off: Disturbance) {
		this.design = design;
		this.off = { ...off };
	}

	/** Frequency received with the pointer on a mark, or `missM` beside it. */
	heardHz(dialHz: number, missM = 0): number {
		const { trimmerF, padderShare, coilShare, pointerM, ifOffHz, platesF } = this.off;
		const tuning = markTuning(this.design, dialHz) + (missM - pointerM) / this.design.scaleTravelM;
		const values = setValues(this.design, { turns: factoryTurns(this.design), tuning, volume: 1 });
		const bentF = platesF.reduce((sum, farad, k) => sum + farad * Math.min(Math.max(4 * (1 - tuning) - k, 0), 1), 0);
		const oscillator = {
			henry: values.oscillator.henry * (1 + coilShare),
			acrossGangF: values.oscillator.acrossGangF + trimmerF + bentF,
			padderF: values.oscillator.padderF * (1 + padderShare),
		};
		return oscillatorHz({ ...values, oscillator }) - this.design.ifHz - ifOffHz;
	}

	/** Turns an adjuster until a frequency comes in with the pointer `missM` beside a mark. */
	bringIn(key: 'trimmerF' | 'padderShare' | 'coilShare', dialHz: number, wantedHz: number, missM: number): void {
		const before = this.off;
		const reach = key === 'trimmerF' ? 40e-12 : 0.4;
		let [low, high] = [-reach, reach];
		// More capacitance or inductance: lower.
		for (let step = 0; step < 50; step++) {
			const middle = (low + high) / 2;
			this.off = { ...before, [key]: middle };
			if (this.heardHz(dialHz, missM) > wantedHz) low = middle;
			else high = middle;
		}
		this.off = { ...before, [key]: (low + high) / 2 };
	}

	/** Length of the scale between two marks. */
	travelM(lowHz: number, highHz: number): number {
		return this.design.scaleTravelM * (markTuning(this.design, highHz) - markTuning(this.design, lowHz));
	}

	worstHz(): number {
		const { lowHz, highHz } = this.design.band;
		return Math.max(
			...Array.from({ length: 13 }, (_, k) => lowHz + ((highHz - lowHz) * k) / 12).map((dialHz) =>
				Math.abs(this.heardHz(dialHz) - dialHz),
			),
		);
	}
}

/** Faults of usual size (chosen): coil 1 %, padder to 10 %, trimmer to 5 mmf, pointer 1 mm, IF half a kilocycle, plates 0.35 mmf a quarter. */
export function usualDisturbance(random: Random): Disturbance {
	const plate = (): number => 0.35e-12 * random.gaussian();
	return {
		coilShare: 0.01 * random.gaussian(),
		padderShare: 0.1 * (2 * random.uniform() - 1),
		trimmerF: 5e-12 * (2 * random.uniform() - 1),
		pointerM: 1e-3 * random.gaussian(),
		ifOffHz: 0.5e3 * random.gaussian(),
		platesF: [plate(), plate(), plate(), plate()],
	};
}
