import { Converter } from './converter.ts';
import type { SetSignal } from './signal.ts';
import type { SetValues } from './values.ts';

/** Complex amplitudes of carrier and both sidebands, amperes into the converter's plate, real and imaginary part in turn. */
const parts = 6;

interface Placed {
	readonly amplitudes: Float64Array;
	/** Distance of the carrier from the IF, hertz; the upper sideband of the signal is `toneSign` tones further. */
	readonly offHz: number;
	readonly toneHz: number;
	readonly toneSign: 1 | -1;
}

function placed(values: SetValues, signal: SetSignal): Placed {
	const converter = new Converter(values);
	const peakV = signal.levelV * Math.SQRT2;
	const carrier = converter.at(signal.frequencyHz, signal.into);
	const above = converter.at(signal.frequencyHz + signal.toneHz, signal.into);
	const below = converter.at(signal.frequencyHz - signal.toneHz, signal.into);
	const sideV = (peakV * signal.depth) / 2;
	return {
		amplitudes: Float64Array.of(
			carrier.current.re * peakV,
			carrier.current.im * peakV,
			above.current.re * sideV,
			above.current.im * sideV,
			below.current.re * sideV,
			below.current.im * sideV,
		),
		offHz: carrier.ifHz - values.ifHz,
		toneHz: signal.toneHz,
		toneSign: above.ifHz >= carrier.ifHz ? 1 : -1,
	};
}

/** A modulated signal after the converter, sample by sample; what the last step gave stands in the fields. */
export class CarrierStream {
	currentReA = 0;
	currentImA = 0;
	readonly #now = new Float64Array(parts);
	readonly #change = new Float64Array(parts);
	#at: Placed;
	#carrierTurn = 0;
	#toneTurn = 0;

	constructor(values: SetValues, signal: SetSignal) {
		this.#at = placed(values, signal);
		this.#now.set(this.#at.amplitudes);
	}

	/** Takes up another signal or other values over `overS` seconds; its phase runs on. */
	change(values: SetValues, signal: SetSignal, overS: number, periodS: number): void {
		this.#at = placed(values, signal);
		for (let k = 0; k < parts; k++) {
			this.#change[k] = ((this.#at.amplitudes[k] as number) - (this.#now[k] as number)) * (periodS / overS);
		}
	}

	/** Holds the amplitudes where they are. */
	settle(): void {
		this.#now.set(this.#at.amplitudes);
		this.#change.fill(0);
	}

	/** One sample on. */
	advance(periodS: number): void {
		const { offHz, toneHz, toneSign } = this.#at;
		const now = this.#now;
		for (let k = 0; k < parts; k++) now[k] = (now[k] as number) + (this.#change[k] as number);
		this.#carrierTurn += offHz * periodS;
		this.#carrierTurn -= Math.floor(this.#carrierTurn);
		this.#toneTurn += toneHz * periodS;
		this.#toneTurn -= Math.floor(this.#toneTurn);
		const tone = 2 * Math.PI * this.#toneTurn;
		const cosine = Math.cos(tone);
		const sine = toneSign * Math.sin(tone);
		const aboveRe = now[2] as number;
		const aboveIm = now[3] as number;
		const belowRe = now[4] as number;
		const belowIm = now[5] as number;
		const re = (now[0] as number) + (aboveRe + belowRe) * cosine - (aboveIm - belowIm) * sine;
		const im = (now[1] as number) + (aboveIm + belowIm) * cosine + (aboveRe - belowRe) * sine;
		const carrier = 2 * Math.PI * this.#carrierTurn;
		const turnRe = Math.cos(carrier);
		const turnIm = Math.sin(carrier);
		this.currentReA = re * turnRe - im * turnIm;
		this.currentImA = re * turnIm + im * turnRe;
	}
}
