import { scaled, size } from '#core/numeric/complex.ts';
import { AntennaCircuit } from './antenna.ts';
import { DiodeLaw } from './diode-law.ts';
import { IfStrip, node } from './if-strip.ts';
import { stripPoles } from './strip-system.ts';
import { tubeShare } from './tube-law.ts';
import { oscillatorHz, type SetValues } from './values.ts';

/** Carrier at the diode at which a set gives about the standard output, volts: where the small-signal gain is taken. */
const workingCarrierV = 0.12;
/** The generator is searched this far either side of oscillator less IF. */
const searchHz = 35e3;

/** Tubes and diode as they stand near the standard output. */
export function workingTubes(values: SetValues): {
	readonly conversionS: number;
	readonly ifTubeS: number;
	readonly diodeS: number;
} {
	const { tubes, detector } = values;
	const diode = new DiodeLaw(values);
	const loadV = diode.loadVoltage(workingCarrierV, detector.loadOhm);
	const share = tubeShare(-loadV / (1 + detector.avcOhm * detector.avcLeakS), 0);
	return {
		conversionS: tubes.conversionS * share,
		ifTubeS: tubes.ifTubeS * share,
		diodeS: diode.currents(workingCarrierV, loadV).fundamentalA / workingCarrierV,
	};
}

/** Whether the IF strip oscillates by itself at a weak signal: then no steady state means anything. */
export function oscillates(values: SetValues): boolean {
	const { ifTubeS, diodeS } = workingTubes(values);
	return stripPoles(values, ifTubeS, diodeS).some(({ decayPerS }) => decayPerS <= 0);
}

/** Gain from generator to diode for a weak signal: tubes and diode as they stand near the standard output. */
export class WeakGain {
	readonly #antenna: AntennaCircuit;
	readonly #strip: IfStrip;
	readonly #oscillator: number;
	readonly #tubes: ReturnType<typeof workingTubes>;

	constructor(values: SetValues) {
		this.#antenna = new AntennaCircuit(values);
		this.#strip = new IfStrip(values);
		this.#oscillator = oscillatorHz(values);
		this.#tubes = workingTubes(values);
	}

	/** Volts at the diode for a volt of generator behind the dummy antenna. */
	at(frequencyHz: number): number {
		const { conversionS, ifTubeS, diodeS } = this.#tubes;
		this.#strip.tune(this.#oscillator - frequencyHz);
		this.#strip.load(ifTubeS, diodeS);
		this.#strip.drive(node.converterPlate, scaled(this.#antenna.transfer(frequencyHz, 'antenna'), conversionS));
		return size(this.#strip.voltage(node.diode));
	}

	/** The generator frequency at which the set answers best. */
	bestHz(ifHz: number): number {
		const middle = this.#oscillator - ifHz;
		const stepHz = 1e3;
		let bestHz = middle;
		let bestGain = 0;
		for (let offHz = -searchHz; offHz <= searchHz; offHz += stepHz) {
			const gain = this.at(middle + offHz);
			if (gain > bestGain) {
				bestGain = gain;
				bestHz = middle + offHz;
			}
		}
		return peakBetween((frequencyHz) => this.at(frequencyHz), bestHz - stepHz, bestHz + stepHz);
	}
}

const golden = (Math.sqrt(5) - 1) / 2;

/** Place of the maximum between two bounds, by golden section to 1 part in 2,000 of the span. */
function peakBetween(value: (at: number) => number, low: number, high: number): number {
	let from = low;
	let to = high;
	let a = to - golden * (to - from);
	let b = from + golden * (to - from);
	let atA = value(a);
	let atB = value(b);
	for (let step = 0; step < 16; step++) {
		if (atA > atB) {
			to = b;
			b = a;
			atB = atA;
			a = to - golden * (to - from);
			atA = value(a);
		} else {
			from = a;
			a = b;
			atA = atB;
			b = from + golden * (to - from);
			atB = value(b);
		}
	}
	return (from + to) / 2;
}
