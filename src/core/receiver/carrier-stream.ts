import { type Complex, complex, over, plus, scaled, size, times } from '#core/numeric/complex.ts';
import { type Converted, Converter } from './converter.ts';
import { IfStrip, node } from './if-strip.ts';
import type { SetSignal } from './signal.ts';
import type { SetValues } from './values.ts';
import { workingTubes } from './weak-gain.ts';

/** The frame turns at the IF unless the strongest carrier lies further from it than this share of the sampling rate (chosen): a curve through samples that turn slowly is true. */
const nearTurn = 1 / 32;
/**
 * A carrier further from the frame than this share of the sampling rate is held there, with what the strip gives of it where it truly is: further out its
 * samples would fold back into the strip's band. Room is left for its sidebands.
 */
const mostTurn = 5 / 16;
/** Carriers nearer to each other than this beat to be heard: they are held together, so that their beat stays what it is. */
const beatHz = 4e3;

/** Complex amplitudes of carrier and both sidebands, amperes into their node of the strip, real and imaginary part in turn. */
const parts = 6;

interface Placed {
	readonly amplitudes: Float64Array;
	readonly entry: Converted['entry'];
	/** Distance of the carrier from the frame, hertz. */
	readonly trueOffHz: number;
	/** The same as it is held; the upper sideband of the signal is `toneSign` tones further. */
	readonly offHz: number;
	readonly toneHz: number;
	readonly toneSign: 1 | -1;
}

/** What a carrier is placed in: the frame, the time between samples, and the carriers that are placed already. */
interface Surroundings {
	readonly frameHz: number;
	readonly periodS: number;
	readonly beside: readonly CarrierStream[];
}

/** What the strip gives at the diode for a current into one of its nodes, tubes and diode as they work. */
function stripGain(values: SetValues): (frequencyHz: number, entry: Converted['entry']) => Complex {
	const strip = new IfStrip(values);
	const { ifTubeS, diodeS } = workingTubes(values);
	return (frequencyHz, entry) => {
		strip.tune(frequencyHz);
		strip.load(ifTubeS, diodeS);
		strip.drive(entry, complex(1, 0));
		return strip.voltage(node.diode);
	};
}

/**
 * Where the frame turns in which a set with these signals is followed: at the IF, or with the carrier that is strongest at the diode where that one
 * lies far from it, as in a strip that peaks far off. So what counts most is followed where it is.
 */
export function frameHzOf(values: SetValues, signals: readonly SetSignal[], periodS: number): number {
	const converter = new Converter(values);
	const carriers = signals.map((signal) => ({ signal, ...converter.at(signal.frequencyHz, signal.into) }));
	if (carriers.every(({ ifHz }) => Math.abs(ifHz - values.ifHz) * periodS <= nearTurn)) return values.ifHz;
	const gain = stripGain(values);
	let strongestV = 0;
	let frameHz = values.ifHz;
	for (const { signal, current, entry, ifHz } of carriers) {
		const diodeV = signal.levelV * size(times(current, gain(ifHz, entry)));
		if (diodeV <= strongestV) continue;
		strongestV = diodeV;
		frameHz = ifHz;
	}
	return Math.abs(frameHz - values.ifHz) * periodS <= nearTurn ? values.ifHz : frameHz;
}

/** Places within a sample at which the curve between samples is looked at; even. */
const places = 8;

/**
 * What is left of a turning current by the curve that `StripStepper` draws through its samples: 1 at rest.
 * @param turn turns between two samples, -1/2 to 1/2
 */
function curveShare(turn: number): Complex {
	const angle = 2 * Math.PI * turn;
	const unit = (phaseRad: number): Complex => complex(Math.cos(phaseRad), Math.sin(phaseRad));
	let sum = complex(0, 0);
	for (let k = 0; k <= places; k++) {
		const s = k / places;
		// Simpson's rule.
		const weight = (k === 0 || k === places ? 1 : k % 2 === 1 ? 4 : 2) / (3 * places);
		const line = plus(complex(1 - s, 0), scaled(unit(angle), s));
		const bend = s * (s - 1) * (Math.cos(angle) - 1);
		sum = plus(sum, scaled(times(plus(line, complex(bend, 0)), unit(-angle * s)), weight));
	}
	return sum;
}

function placed(values: SetValues, signal: SetSignal, { frameHz, periodS, beside }: Surroundings): Placed {
	const converter = new Converter(values);
	const peakV = signal.levelV * Math.SQRT2;
	const sideV = (peakV * signal.depth) / 2;
	const carrier = converter.at(signal.frequencyHz, signal.into);
	const above = converter.at(signal.frequencyHz + signal.toneHz, signal.into);
	const below = converter.at(signal.frequencyHz - signal.toneHz, signal.into);
	const trueOffHz = carrier.ifHz - frameHz;
	const mostHz = mostTurn / periodS;
	const near = beside.find(({ place }) => Math.abs(place.trueOffHz - trueOffHz) < beatHz)?.place;
	const offHz = near ? trueOffHz + near.offHz - near.trueOffHz : Math.min(Math.max(trueOffHz, -mostHz), mostHz);
	const gain = offHz === trueOffHz ? null : stripGain(values);
	const amplitudes = [
		{ ...carrier, peakV },
		{ ...above, peakV: sideV },
		{ ...below, peakV: sideV },
	].flatMap(({ current, ifHz, peakV: volts }) => {
		const heldHz = ifHz + offHz - trueOffHz;
		const here = gain ? times(current, over(gain(ifHz, carrier.entry), gain(heldHz, carrier.entry))) : current;
		// The current into the strip and the IF tube's both go by such a curve.
		const share = curveShare((heldHz - frameHz) * periodS);
		const { re, im } = scaled(over(here, times(share, share)), volts);
		return [re, im];
	});
	return {
		amplitudes: Float64Array.from(amplitudes),
		entry: carrier.entry,
		trueOffHz,
		offHz,
		toneHz: signal.toneHz,
		toneSign: above.ifHz >= carrier.ifHz ? 1 : -1,
	};
}

/** A modulated signal where it enters the IF strip, sample by sample; what the last step gave stands in the fields. */
export class CarrierStream {
	currentReA = 0;
	currentImA = 0;
	readonly #now = new Float64Array(parts);
	readonly #change = new Float64Array(parts);
	#at: Placed;
	#carrierTurn = 0;
	#toneTurn = 0;

	constructor(values: SetValues, signal: SetSignal, around: Surroundings) {
		this.#at = placed(values, signal, around);
		this.#now.set(this.#at.amplitudes);
	}

	/** Where it enters the strip and lies beside the frame. */
	get place(): Pick<Placed, 'entry' | 'trueOffHz' | 'offHz'> {
		return this.#at;
	}

	/** Takes up another signal or other values over `overS` seconds; its phase runs on. */
	change(values: SetValues, signal: SetSignal, overS: number, around: Surroundings): void {
		const { entry } = this.#at;
		this.#at = placed(values, signal, around);
		// At another node it begins anew.
		if (this.#at.entry !== entry) this.#now.fill(0);
		for (let k = 0; k < parts; k++) {
			this.#change[k] = ((this.#at.amplitudes[k] as number) - (this.#now[k] as number)) * (around.periodS / overS);
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
