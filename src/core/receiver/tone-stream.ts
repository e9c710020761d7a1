import type { SetSignal } from './signal.ts';

/** Tone that a generator brings to the top of the volume control, sample by sample. The diode there only moves its direct volts, which go no further: its peaks are held, not cut, by so small a source. */
export class ToneStream {
	readonly #periodS: number;
	#nowV = 0;
	#aimV = 0;
	#stepV = 0;
	#toneHz = 0;
	#turn = 0;

	constructor(periodS: number) {
		this.#periodS = periodS;
	}

	/** Takes up another tone, or none, its level led there over so many samples; its phase runs on. */
	lead(signal: SetSignal | undefined, count: number): void {
		if (signal) this.#toneHz = signal.toneHz;
		this.#aimV = (signal?.levelV ?? 0) * Math.SQRT2;
		this.#stepV = (this.#aimV - this.#nowV) / count;
	}

	/** Volts of the next sample. */
	advance(): number {
		if (this.#aimV === 0 && this.#nowV === 0) return 0;
		const leftV = this.#aimV - this.#nowV;
		this.#nowV = Math.abs(leftV) <= Math.abs(this.#stepV) ? this.#aimV : this.#nowV + this.#stepV;
		this.#turn = (this.#turn + this.#toneHz * this.#periodS) % 1;
		return this.#nowV * Math.sin(2 * Math.PI * this.#turn);
	}
}
