import { createRandom, type Random } from '#core/numeric/random.ts';
import type { Disturbance, SetValues } from './values.ts';

/** Volts across creeping silver when it lets go (chosen; a plate winding's mica holds off the whole B-plus). */
const lettingGoV = 20;

/** Creeping silver in an IF capacitor: a jump to and fro at random moments, and the charge of each. */
export class CrackleStream {
	/** Current of the charge just dumped, amplitude for one sample; to be taken once. */
	currentReA = 0;
	currentImA = 0;
	readonly #random: Random;
	readonly #periodS: number;
	#isUp = false;

	constructor(periodS: number, seed: number) {
		this.#periodS = periodS;
		this.#random = createRandom(seed ^ 0xc4ac);
	}

	/** Goes on by some samples; `true` when the capacitance has jumped. */
	advance({ crackle }: Disturbance, count: number): boolean {
		if (!crackle) return false;
		if (this.#random.uniform() >= crackle.perS * count * this.#periodS) return false;
		this.#isUp = !this.#isUp;
		// A charge let go in no time has a flat spectrum: about the IF it is a current of 2 q / T for one sample.
		const amplitudeA = (2 * crackle.farad * lettingGoV) / this.#periodS;
		const angle = 2 * Math.PI * this.#random.uniform();
		this.currentReA = amplitudeA * Math.cos(angle);
		this.currentImA = amplitudeA * Math.sin(angle);
		return true;
	}

	/** The values with the capacitance where it has jumped to. */
	apply(values: SetValues): SetValues {
		const { crackle } = values.disturbance;
		if (!crackle || !this.#isUp) return values;
		return {
			...values,
			windings: values.windings.map((winding, at) =>
				at === crackle.winding ? { ...winding, farad: winding.farad + crackle.farad } : winding,
			),
		};
	}
}

/** Share of a beat after which a putt has died away to 1/e (chosen, as relaxation oscillations sound). */
const puttShare = 0.15;
/** Ripple is a saw, smoothed: its second harmonic's share (chosen). */
const secondShare = 0.3;

/** Hum and motorboating at the voice coil, from sample to sample: imposed on the sound, since the supply is not part of the simulated circuits. */
export class RumbleStream {
	readonly #periodS: number;
	#humTurn = 0;
	#beatTurn = 0;

	constructor(periodS: number) {
		this.#periodS = periodS;
	}

	/** Volts of the next sample. */
	advance({ hum, motorboating }: Disturbance): number {
		let volts = 0;
		if (hum) {
			this.#humTurn = (this.#humTurn + hum.frequencyHz * this.#periodS) % 1;
			const angle = 2 * Math.PI * this.#humTurn;
			const peakV = hum.levelV * Math.SQRT2;
			volts += (peakV * (Math.sin(angle) + secondShare * Math.sin(2 * angle))) / Math.hypot(1, secondShare);
		}
		if (motorboating) {
			this.#beatTurn = (this.#beatTurn + motorboating.frequencyHz * this.#periodS) % 1;
			const along = this.#beatTurn / puttShare;
			volts += motorboating.levelV * Math.exp(-along) * (1 - Math.exp(-20 * along)) - motorboating.levelV * puttShare;
		}
		return volts;
	}
}
