import { type Complex, complex, conjugate, minus, over, plus, scaled, size, times } from '#core/numeric/complex.ts';
import { couplingShare, outputFundamental } from './audio-stage.ts';
import { type Converted, Converter } from './converter.ts';
import { DiodeLaw } from './diode-law.ts';
import { IfStrip, node } from './if-strip.ts';
import type { SetSignal } from './signal.ts';
import { tubeShare } from './tube-law.ts';
import type { SetValues } from './values.ts';

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

/** Where the set stands with one carrier assumed at the diode. */
interface Closed {
	readonly carrierV: number;
	readonly loadV: number;
	readonly avcV: number;
	/** Of the diode to the carrier. */
	readonly diodeS: Complex;
	/** Share of the converter's transconductance that AVC leaves. */
	readonly converter: number;
	readonly ifTubeS: number;
	/** The carrier that the strip gives back. */
	readonly given: Complex;
}

/** A sideband at the diode, its phase counted from the carrier's. */
interface Sideband {
	readonly ifHz: number;
	/** Volts with the diode taken off. */
	readonly open: Complex;
	/** Impedance of the strip that the diode meets. */
	readonly sourceOhm: Complex;
}

/**
 * The steady state of a set: antenna circuits, converter, IF strip, diode and AVC solved together.
 * One unknown is left: the carrier at the diode. With a carrier assumed, load voltage, AVC, both tubes and the diode's conductance
 * follow, and the strip gives back a carrier; the assumed one is moved until both agree.
 */
export class SteadyState {
	readonly #values: SetValues;
	readonly #converter: Converter;
	readonly #strip: IfStrip;
	readonly #loadOhm: number;
	readonly #avcShare: number;
	readonly #diode: DiodeLaw;

	constructor(values: SetValues) {
		this.#values = values;
		this.#converter = new Converter(values);
		this.#strip = new IfStrip(values);
		this.#diode = new DiodeLaw(values);
		const { loadOhm, avcOhm, avcLeakS } = values.detector;
		// A leaky AVC line draws current through its filter; a sound one draws none.
		this.#avcShare = 1 / (1 + avcOhm * avcLeakS);
		this.#loadOhm = 1 / (1 / loadOhm + avcLeakS * this.#avcShare);
	}

	/** The steady state under a signal. */
	operatingPoint(signal: SetSignal): OperatingPoint {
		const peakV = signal.levelV * Math.SQRT2;
		if (signal.into === 'audio grid')
			return {
				toneV: this.#outputV(peakV, signal.toneHz),
				detectorToneV: signal.levelV,
				detectorV: 0,
				avcV: 0,
				carrierV: 0,
			};
		const converted = this.#converter.at(signal.frequencyHz, signal.into);
		this.#strip.tune(converted.ifHz);
		const closed = this.#solve({ ...converted, current: scaled(converted.current, peakV) });
		const toneV = peakV > 0 && signal.depth > 0 ? this.#tone(signal, closed, peakV) : 0;
		return {
			toneV: this.#outputV(toneV, signal.toneHz),
			detectorToneV: toneV / Math.SQRT2,
			detectorV: -closed.loadV,
			avcV: closed.avcV,
			carrierV: closed.carrierV,
		};
	}

	/** Volts rms at the voice coil for peak volts of a tone at the detector's load. */
	#outputV(toneV: number, toneHz: number): number {
		const { volume, audio } = this.#values;
		return outputFundamental(audio, toneV * couplingShare(audio, toneHz) * audio.gain * volume) / Math.SQRT2;
	}

	/** Diode, AVC and tubes for an assumed carrier, and the carrier that the strip then gives. The strip is left loaded so. */
	#close(carrierV: number, drive: Converted, gridOhm: number): Closed {
		const { tubes } = this.#values;
		const loadV = this.#diode.loadVoltage(carrierV, this.#loadOhm);
		const { fundamentalA, leadingA } = this.#diode.currents(carrierV, loadV);
		const diodeS = complex(fundamentalA / carrierV, leadingA / carrierV);
		const avcV = -loadV * this.#avcShare;
		const converter = tubeShare(avcV, 0);
		const current = drive.entry === node.converterPlate ? scaled(drive.current, converter) : drive.current;
		const ifTubeS = tubes.ifTubeS * tubeShare(avcV, size(current) * gridOhm);
		this.#strip.load(ifTubeS, diodeS.re, diodeS.im);
		this.#strip.drive(drive.entry, current);
		return { carrierV, loadV, avcV, diodeS, converter, ifTubeS, given: this.#strip.voltage(node.diode) };
	}

	/** The carrier that agrees with itself: the root of ln(given) - ln(assumed), by secant within the bounds found so far. */
	#solve(drive: Converted): Closed {
		// For the swing on the IF tube's grid the tube's own small reaction on its grid is left out.
		this.#strip.load(0, 0);
		this.#strip.drive(drive.entry, complex(1, 0));
		const gridOhm = size(this.#strip.voltage(node.ifGrid));
		let closed = this.#close(leastCarrierV, drive, gridOhm);
		if (!(size(closed.given) > leastCarrierV)) return closed;
		let low = Math.log(leastCarrierV);
		let high = Number.POSITIVE_INFINITY;
		let beforeAt = Number.NaN;
		let beforeMiss = Number.NaN;
		// The first try is the strip's answer to a small signal; AVC and the diode's load then take it down.
		let at = Math.log(size(closed.given));
		for (let step = 0; step < 80; step++) {
			closed = this.#close(Math.exp(at), drive, gridOhm);
			const miss = Math.log(size(closed.given)) - at;
			if (Math.abs(miss) < 1e-9) break;
			if (miss > 0) low = at;
			else high = at;
			const slope = step === 0 ? -1.5 : (miss - beforeMiss) / (at - beforeAt);
			beforeAt = at;
			beforeMiss = miss;
			const next = at - miss / (slope < -0.2 ? slope : -1);
			at = next > low && next < high ? next : high === Number.POSITIVE_INFINITY ? low + 1 : (low + high) / 2;
		}
		return closed;
	}

	/**
	 * Peak volts of the tone at the detector's load. The diode loads the part of the sidebands that is in step with the carrier
	 * (amplitude) and the part that is at right angles (phase) differently, and so ties the two sidebands together.
	 */
	#tone(signal: SetSignal, closed: Closed, peakV: number): number {
		const { detected, inStepS, leadingS } = this.#detection(signal.toneHz, closed);
		const [upper, lower] = this.#sidebands(signal, closed, peakV);
		// With a = (u + l*)/2 in step with the carrier and b = (u - l*)/2 at right angles to it:
		// i_u = (P + jQ) a + Y b and i_l* = (P - jQ) a - Y* b; u = s_u - Z_u i_u and l* = s_l* - Z_l* i_l*.
		const turned = times(leadingS, complex(0, 1));
		const upperInStep = scaled(plus(inStepS, turned), 0.5);
		const lowerInStep = scaled(minus(inStepS, turned), 0.5);
		const across = scaled(closed.diodeS, 0.5);
		const acrossLower = conjugate(across);
		const lowerOhm = conjugate(lower.sourceOhm);
		const one = complex(1, 0);
		const a11 = plus(one, times(upper.sourceOhm, plus(upperInStep, across)));
		const a12 = times(upper.sourceOhm, minus(upperInStep, across));
		const a21 = times(lowerOhm, minus(lowerInStep, acrossLower));
		const a22 = plus(one, times(lowerOhm, plus(lowerInStep, acrossLower)));
		const lowerOpen = conjugate(lower.open);
		const determinant = minus(times(a11, a22), times(a12, a21));
		const u = over(minus(times(upper.open, a22), times(a12, lowerOpen)), determinant);
		const l = over(minus(times(a11, lowerOpen), times(a21, upper.open)), determinant);
		return size(plus(u, l)) * size(detected);
	}

	/** Volts at the load for a volt of in-step carrier at the tone's rate, and the conductance that this part meets; slopes by differences of the diode's law. */
	#detection(
		toneHz: number,
		{ carrierV, loadV }: Closed,
	): { readonly detected: Complex; readonly inStepS: Complex; readonly leadingS: Complex } {
		const { loadOhm, avcOhm, reservoirF } = this.#values.detector;
		const stepV = Math.min(1e-4, carrierV * 1e-3);
		const loadStepV = 1e-5;
		const up = this.#diode.currents(carrierV + stepV, loadV);
		const down = this.#diode.currents(carrierV - stepV, loadV);
		const more = this.#diode.currents(carrierV, loadV + loadStepV);
		const less = this.#diode.currents(carrierV, loadV - loadStepV);
		const meanByLoadS = (more.meanA - less.meanA) / (2 * loadStepV);
		// What the diode's mean current feeds at the tone: volume control, AVC filter and reservoir.
		const load = complex(1 / loadOhm + 1 / avcOhm - meanByLoadS, 2 * Math.PI * toneHz * reservoirF);
		const detected = over(complex((up.meanA - down.meanA) / (2 * stepV), 0), load);
		const slope = (part: 'fundamentalA' | 'leadingA'): Complex =>
			plus(
				complex((up[part] - down[part]) / (2 * stepV), 0),
				scaled(detected, (more[part] - less[part]) / (2 * loadStepV)),
			);
		return { detected, inStepS: slope('fundamentalA'), leadingS: slope('leadingA') };
	}

	/** The two sidebands at the diode, the upper one of the intermediate frequency first. */
	#sidebands(signal: SetSignal, closed: Closed, peakV: number): readonly [Sideband, Sideband] {
		const carrier = scaled(closed.given, 1 / size(closed.given));
		const sideband = (sign: 1 | -1): Sideband => {
			const { current, entry, ifHz } = this.#converter.at(signal.frequencyHz + sign * signal.toneHz, signal.into);
			const share = entry === node.converterPlate ? closed.converter : 1;
			this.#strip.tune(ifHz);
			this.#strip.load(closed.ifTubeS, 0);
			this.#strip.drive(entry, scaled(current, (peakV * signal.depth * share) / 2));
			const open = over(this.#strip.voltage(node.diode), carrier);
			this.#strip.drive(node.diode, complex(1, 0));
			return { ifHz, open, sourceOhm: this.#strip.voltage(node.diode) };
		};
		const above = sideband(1);
		const below = sideband(-1);
		return above.ifHz > below.ifHz ? [above, below] : [below, above];
	}
}
