import { AntennaCircuit } from './antenna.ts';
import { couplingShare, outputFundamental } from './audio-stage.ts';
import { diodeCurrents, loadVoltage } from './diode-law.ts';
import { IfStrip, node } from './if-strip.ts';
import type { SetSignal } from './position.ts';
import { tubeShare } from './tube-law.ts';
import { oscillatorHz, type SetValues } from './values.ts';

/** Steady state of a set under a signal. */
export interface OperatingPoint {
	/** Tone at the voice coil, volts rms. */
	readonly toneV: number;
	/** Tone at the detector's load, volts rms. */
	readonly detectorToneV: number;
	/** Direct volts at the detector's load, 0 or negative against the common. */
	readonly detectorV: number;
	/** AVC line, volts, 0 or negative. */
	readonly avcV: number;
	/** Peak volts of the carrier at the diode. */
	readonly carrierV: number;
}

/** Below this the level's logarithm is cut: no carrier at all. */
const leastCarrierV = 1e-12;

/**
 * The steady state of a set: antenna circuits, converter, IF strip, diode and AVC solved together.
 * One unknown is left: the carrier at the diode. With a carrier A assumed, load voltage, AVC, both tubes and the diode's conductance
 * follow, and the strip gives back a carrier; the assumed one is moved until both agree.
 */
export class SteadyState {
	readonly #values: SetValues;
	readonly #antenna: AntennaCircuit;
	readonly #strip: IfStrip;
	readonly #grid: IfStrip;
	readonly #loadOhm: number;
	readonly #avcShare: number;

	constructor(values: SetValues) {
		this.#values = values;
		this.#antenna = new AntennaCircuit(values);
		this.#strip = new IfStrip(values);
		this.#grid = new IfStrip(values);
		const { loadOhm, avcOhm, avcLeakS } = values.detector;
		// A leaky AVC line draws current through its filter; a sound one draws none.
		this.#loadOhm = 1 / (1 / loadOhm + avcLeakS / (1 + avcOhm * avcLeakS));
		this.#avcShare = 1 / (1 + avcOhm * avcLeakS);
	}

	/** Current that the converter drives into the strip for a signal at a frequency, amperes per volt of generator and siemens of nominal conversion. */
	#conversion(frequencyHz: number, signal: SetSignal): { re: number; im: number; ifHz: number } {
		const oscillator = oscillatorHz(this.#values);
		const { ifHz, tubes } = this.#values;
		const [re, im] = this.#antenna.transfer(frequencyHz, signal.into);
		const below = oscillator - frequencyHz;
		// A signal at the intermediate frequency goes straight through; any other is mixed. The nearer way to the IF counts.
		if (Math.abs(frequencyHz - ifHz) < Math.abs(Math.abs(below) - ifHz)) {
			return { re: re * tubes.throughS, im: im * tubes.throughS, ifHz: frequencyHz };
		}
		// With the oscillator above the signal the spectrum is turned over.
		return { re: re * tubes.conversionS, im: (below > 0 ? -im : im) * tubes.conversionS, ifHz: Math.abs(below) };
	}

	/** Diode, AVC and tubes for an assumed carrier at the diode, and the carrier that the strip then gives. */
	#close(carrierV: number, driveRe: number, driveIm: number): Closed {
		const { tubes } = this.#values;
		const loadV = loadVoltage(carrierV, this.#loadOhm);
		const { fundamentalA } = diodeCurrents(carrierV, loadV);
		const diodeS = fundamentalA / carrierV;
		const avcV = -loadV * this.#avcShare;
		const converter = tubeShare(avcV, 0);
		const re = driveRe * converter;
		const im = driveIm * converter;
		this.#grid.drive(node.converterPlate, re, im);
		const swingV = Math.hypot(this.#grid.re[node.ifGrid] as number, this.#grid.im[node.ifGrid] as number);
		const ifTubeS = tubes.ifTubeS * tubeShare(avcV, swingV);
		this.#strip.load(ifTubeS, diodeS, 0);
		this.#strip.drive(node.converterPlate, re, im);
		const givenV = Math.hypot(this.#strip.re[node.diode] as number, this.#strip.im[node.diode] as number);
		return { loadV, avcV, diodeS, converter, ifTubeS, givenV };
	}

	/** The steady state under a signal. */
	operatingPoint(signal: SetSignal): OperatingPoint {
		const { volume, audio } = this.#values;
		const peakV = signal.levelV * Math.SQRT2;
		const carrier = this.#conversion(signal.frequencyHz, signal);
		const driveRe = -carrier.re * peakV;
		const driveIm = -carrier.im * peakV;
		this.#strip.tune(carrier.ifHz);
		this.#grid.tune(carrier.ifHz);
		// For the swing on the IF tube's grid its own small reaction on the grid is left out.
		this.#grid.load(0, 0, 0);
		const { carrierV, closed } = this.#solve(driveRe, driveIm);
		const detectorToneV = peakV > 0 && signal.depth > 0 ? this.#tone(signal, carrierV, closed, peakV) / Math.SQRT2 : 0;
		const amplified = detectorToneV * Math.SQRT2 * couplingShare(audio, signal.toneHz) * audio.gain * volume;
		return {
			toneV: outputFundamental(audio, amplified) / Math.SQRT2,
			detectorToneV,
			detectorV: -closed.loadV,
			avcV: closed.avcV,
			carrierV,
		};
	}

	/** The carrier that agrees with itself: the root of ln(given) - ln(assumed), by secant within the bounds found so far. */
	#solve(driveRe: number, driveIm: number): { carrierV: number; closed: Closed } {
		let closed = this.#close(leastCarrierV, driveRe, driveIm);
		if (!(closed.givenV > leastCarrierV)) return { carrierV: leastCarrierV, closed };
		let low = Math.log(leastCarrierV);
		let high = Number.POSITIVE_INFINITY;
		let beforeAt = Number.NaN;
		let beforeMiss = Number.NaN;
		// The first try is the strip's answer to a small signal; AVC and the diode's load then take it down.
		let at = Math.log(closed.givenV);
		for (let step = 0; step < 80; step++) {
			closed = this.#close(Math.exp(at), driveRe, driveIm);
			const miss = Math.log(closed.givenV) - at;
			if (Math.abs(miss) < 1e-9) break;
			if (miss > 0) low = at;
			else high = at;
			const slope = step === 0 ? -1.5 : (miss - beforeMiss) / (at - beforeAt);
			beforeAt = at;
			beforeMiss = miss;
			const next = at - miss / (slope < -0.2 ? slope : -1);
			at = next > low && next < high ? next : high === Number.POSITIVE_INFINITY ? low + 1 : (low + high) / 2;
		}
		return { carrierV: Math.exp(at), closed };
	}

	/**
	 * Peak volts of the tone at the detector's load. The diode loads the part of the sidebands that is in step with the carrier
	 * (amplitude) and the part that is at right angles (phase) differently, and so ties the two sidebands together.
	 */
	#tone(signal: SetSignal, carrierV: number, closed: Closed, peakV: number): number {
		const { detector } = this.#values;
		const { toneHz, frequencyHz, depth } = signal;
		const { loadV, diodeS, converter, ifTubeS } = closed;
		// Slopes of the two currents by differences of the diode's law.
		const step = Math.min(1e-4, carrierV * 1e-3);
		const up = diodeCurrents(carrierV + step, loadV);
		const down = diodeCurrents(carrierV - step, loadV);
		const more = diodeCurrents(carrierV, loadV + 1e-5);
		const less = diodeCurrents(carrierV, loadV - 1e-5);
		const meanByCarrier = (up.meanA - down.meanA) / (2 * step);
		const fundamentalByCarrier = (up.fundamentalA - down.fundamentalA) / (2 * step);
		const meanByLoad = (more.meanA - less.meanA) / 2e-5;
		const fundamentalByLoad = (more.fundamentalA - less.fundamentalA) / 2e-5;
		// Admittance of the load at the tone: the volume control, the reservoir, the AVC filter's resistor.
		const omega = 2 * Math.PI * toneHz;
		const loadRe = 1 / detector.loadOhm + 1 / detector.avcOhm - meanByLoad;
		const loadIm = omega * detector.reservoirF;
		const weight = loadRe * loadRe + loadIm * loadIm;
		// Load volts for a volt of carrier, and the conductance to the in-step part.
		const detectRe = (meanByCarrier * loadRe) / weight;
		const detectIm = (-meanByCarrier * loadIm) / weight;
		const stepRe = fundamentalByCarrier + fundamentalByLoad * detectRe;
		const stepIm = fundamentalByLoad * detectIm;

		// Phase of the carrier at the diode, to which amplitude and phase refer.
		const carrier = this.#carrierPhase(signal, closed, peakV);
		const sideband = (sign: 1 | -1): Sideband => {
			const made = this.#conversion(frequencyHz + sign * toneHz, signal);
			this.#strip.tune(made.ifHz);
			this.#strip.load(ifTubeS, 0, 0);
			const scale = (-peakV * depth * converter) / 2;
			this.#strip.drive(node.converterPlate, made.re * scale, made.im * scale);
			const re = this.#strip.re[node.diode] as number;
			const im = this.#strip.im[node.diode] as number;
			this.#strip.drive(node.diode, 1, 0);
			return {
				ifHz: made.ifHz,
				re: re * carrier.cos + im * carrier.sin,
				im: im * carrier.cos - re * carrier.sin,
				ohmRe: this.#strip.re[node.diode] as number,
				ohmIm: this.#strip.im[node.diode] as number,
			};
		};
		const one = sideband(1);
		const other = sideband(-1);
		const [upper, lower] = one.ifHz > other.ifHz ? [one, other] : [other, one];
		// u = s_u - Z_u i_u and conj(l) = conj(s_l) - conj(Z_l) conj(i_l), with
		// i_u = (Gs (u + l*) + Gp (u - l*))/2 and i_l* = (Gs (u + l*) - Gp (u - l*))/2.
		const sumRe = (stepRe + diodeS) / 2;
		const halfIm = stepIm / 2;
		const differenceRe = (stepRe - diodeS) / 2;
		const a11 = complex(1 + upper.ohmRe * sumRe - upper.ohmIm * halfIm, upper.ohmRe * halfIm + upper.ohmIm * sumRe);
		const a12 = complex(
			upper.ohmRe * differenceRe - upper.ohmIm * halfIm,
			upper.ohmRe * halfIm + upper.ohmIm * differenceRe,
		);
		const a21 = complex(
			lower.ohmRe * differenceRe + lower.ohmIm * halfIm,
			lower.ohmRe * halfIm - lower.ohmIm * differenceRe,
		);
		const a22 = complex(1 + lower.ohmRe * sumRe + lower.ohmIm * halfIm, lower.ohmRe * halfIm - lower.ohmIm * sumRe);
		const s1 = complex(upper.re, upper.im);
		const s2 = complex(lower.re, -lower.im);
		const determinant = minus(times(a11, a22), times(a12, a21));
		const u = over(minus(times(s1, a22), times(a12, s2)), determinant);
		const l = over(minus(times(a11, s2), times(a21, s1)), determinant);
		const inStep = Math.hypot(u.re + l.re, u.im + l.im);
		return inStep * Math.hypot(detectRe, detectIm);
	}

	#carrierPhase(
		signal: SetSignal,
		{ ifTubeS, diodeS, converter }: Closed,
		peakV: number,
	): { cos: number; sin: number } {
		const made = this.#conversion(signal.frequencyHz, signal);
		this.#strip.tune(made.ifHz);
		this.#strip.load(ifTubeS, diodeS, 0);
		this.#strip.drive(node.converterPlate, -made.re * peakV * converter, -made.im * peakV * converter);
		const re = this.#strip.re[node.diode] as number;
		const im = this.#strip.im[node.diode] as number;
		const length = Math.hypot(re, im);
		return { cos: re / length, sin: im / length };
	}
}

interface Closed {
	readonly loadV: number;
	readonly avcV: number;
	/** Of the diode to the carrier, siemens. */
	readonly diodeS: number;
	/** Share of the converter's transconductance that AVC leaves. */
	readonly converter: number;
	readonly ifTubeS: number;
	readonly givenV: number;
}

interface Sideband {
	readonly ifHz: number;
	readonly re: number;
	readonly im: number;
	readonly ohmRe: number;
	readonly ohmIm: number;
}

interface Complex {
	readonly re: number;
	readonly im: number;
}
const complex = (re: number, im: number): Complex => ({ re, im });
const times = (a: Complex, b: Complex): Complex => complex(a.re * b.re - a.im * b.im, a.re * b.im + a.im * b.re);
const minus = (a: Complex, b: Complex): Complex => complex(a.re - b.re, a.im - b.im);
function over(a: Complex, b: Complex): Complex {
	const weight = b.re * b.re + b.im * b.im;
	return complex((a.re * b.re + a.im * b.im) / weight, (a.im * b.re - a.re * b.im) / weight);
}
