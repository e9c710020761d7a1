import type { AudioDesign } from './design.ts';

/** Second-order part of the output tube's curve (chosen). */
const squareShare = 0.06;

/**
 * Volts at the voice coil for volts at the grid side, both at an instant: a soft limit with a little square law.
 * The direct part is taken off by the output transformer.
 */
function outputVolts({ mostV }: AudioDesign, amplifiedV: number): number {
	const bent = Math.tanh(amplifiedV / mostV);
	return mostV * (bent + squareShare * bent * bent);
}

const points = 24;
const cosines = Float64Array.from({ length: points }, (_, k) => Math.cos((2 * Math.PI * (k + 0.5)) / points));

/** Peak of the fundamental at the voice coil for a pure tone of `amplifiedV` peak. */
export function outputFundamental(audio: AudioDesign, amplifiedV: number): number {
	let sum = 0;
	for (let k = 0; k < points; k++) {
		const cosine = cosines[k] as number;
		sum += outputVolts(audio, amplifiedV * cosine) * cosine;
	}
	return (2 * sum) / points;
}

/** Share of a tone that the coupling condensers let through. */
export function couplingShare({ lowCutHz }: AudioDesign, toneHz: number): number {
	return toneHz / Math.hypot(toneHz, lowCutHz);
}

/** The output transformer's own lower end, hertz (chosen, far below any tone). */
const transformerHz = 5;

/** The audio stages from sample to sample. */
export class AudioStream {
	readonly #coupling: number;
	readonly #transformer: number;
	#coupledV = 0;
	#directV = 0;

	constructor({ lowCutHz }: AudioDesign, periodS: number) {
		this.#coupling = -Math.expm1(-2 * Math.PI * lowCutHz * periodS);
		this.#transformer = -Math.expm1(-2 * Math.PI * transformerHz * periodS);
	}

	/** Volts at the voice coil for volts at the detector's load. */
	advance(audio: AudioDesign, detectorV: number, volume: number): number {
		this.#coupledV += this.#coupling * (detectorV - this.#coupledV);
		const outV = outputVolts(audio, (detectorV - this.#coupledV) * audio.gain * volume);
		this.#directV += this.#transformer * (outV - this.#directV);
		return outV - this.#directV;
	}
}
