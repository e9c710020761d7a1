import { AntennaCircuit } from './antenna.ts';
import { type BenchSet, tuningAtMark, valuesAt } from './bench-set.ts';
import { diodeCurrents, loadVoltage } from './diode-law.ts';
import { IfStrip, node } from './if-strip.ts';
import { SteadyState } from './operating-point.ts';
import { StripResponse } from './strip-system.ts';
import { tubeShare } from './tube-law.ts';
import { oscillatorHz, type SetValues } from './values.ts';

/** Output of broadcast receiver tests: 50 mW, with 400 c at 30 % [kennedy]. */
const standard = { outputW: 0.05, toneHz: 400, depth: 0.3 } as const;

/** Carrier at the diode at which the set gives about the standard output, volts: where the small-signal gain is taken. */
const workingCarrierV = 0.12;

/** Gain from generator to diode for a weak signal: tubes and diode as they stand near the standard output. */
class WeakGain {
	readonly #antenna: AntennaCircuit;
	readonly #strip: IfStrip;
	readonly #oscillator: number;
	readonly #conversionS: number;
	readonly #ifTubeS: number;
	readonly #diodeS: number;

	constructor(values: SetValues) {
		this.#antenna = new AntennaCircuit(values);
		this.#strip = new IfStrip(values);
		this.#oscillator = oscillatorHz(values);
		const { ifTubeS, diodeS, conversionS } = workingTubes(values);
		this.#conversionS = conversionS;
		this.#ifTubeS = ifTubeS;
		this.#diodeS = diodeS;
	}

	/** Volts at the diode for a volt of generator behind the dummy antenna. */
	at(frequencyHz: number): number {
		const [re, im] = this.#antenna.transfer(frequencyHz, 'antenna');
		this.#strip.tune(this.#oscillator - frequencyHz);
		this.#strip.load(this.#ifTubeS, this.#diodeS, 0);
		this.#strip.drive(node.converterPlate, re * this.#conversionS, im * this.#conversionS);
		return Math.hypot(this.#strip.re[node.diode] as number, this.#strip.im[node.diode] as number);
	}

	/** The generator frequency at which the set answers best, searched 35 kc either side of oscillator less IF, and the gain there. */
	best(ifHz: number): { readonly frequencyHz: number; readonly gain: number } {
		const middle = this.#oscillator - ifHz;
		let bestHz = middle;
		let bestGain = 0;
		for (let off = -35e3; off <= 35e3; off += 1e3) {
			const gain = this.at(middle + off);
			if (gain > bestGain) {
				bestGain = gain;
				bestHz = middle + off;
			}
		}
		const frequencyHz = peakBetween((at) => this.at(at), bestHz - 1e3, bestHz + 1e3);
		return { frequencyHz, gain: this.at(frequencyHz) };
	}
}

/** Tubes and diode as they stand near the standard output. */
function workingTubes({ tubes, detector }: SetValues): { conversionS: number; ifTubeS: number; diodeS: number } {
	const loadV = loadVoltage(workingCarrierV, detector.loadOhm);
	const share = tubeShare(-loadV / (1 + detector.avcOhm * detector.avcLeakS), 0);
	return {
		conversionS: tubes.conversionS * share,
		ifTubeS: tubes.ifTubeS * share,
		diodeS: diodeCurrents(workingCarrierV, loadV).fundamentalA / workingCarrierV,
	};
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

/** Where on the air a set with its pointer on a mark hears best, hertz. */
export function receivedHz(set: BenchSet, dialHz: number): number {
	return new WeakGain(valuesAt(set, tuningAtMark(set, dialHz))).best(set.design.ifHz).frequencyHz;
}

/**
 * Gain for a weak signal that falls on the intermediate frequency as designed, mean over the set's test points, decibels.
 * The IF is held there because another one would lead the dial and the wave trap astray.
 */
export function gainAtIfDb(set: BenchSet): number {
	const { testHz, ifHz } = set.design;
	const sum = testHz.reduce((total, mark) => {
		const values = valuesAt(set, tuningAtMark(set, mark));
		return total + 20 * Math.log10(new WeakGain(values).at(oscillatorHz(values) - ifHz));
	}, 0);
	return sum / testHz.length;
}

/**
 * Generator volts behind the dummy antenna for the standard output, pointer on a mark, generator where the set hears best, volume full up;
 * `null` when 2 V do not reach it.
 */
export function sensitivityV(set: BenchSet, dialHz: number): number | null {
	const values = valuesAt(set, tuningAtMark(set, dialHz));
	const { frequencyHz } = new WeakGain(values).best(set.design.ifHz);
	const steady = new SteadyState(values);
	const wantedV = Math.sqrt(standard.outputW * values.audio.voiceCoilOhm);
	const missAt = (lnLevelV: number): number => {
		const { toneV } = steady.operatingPoint({
			frequencyHz,
			levelV: Math.exp(lnLevelV),
			toneHz: standard.toneHz,
			depth: standard.depth,
			into: 'antenna',
		});
		return Math.log(toneV / wantedV);
	};
	let low = Math.log(1e-8);
	let high = low;
	do {
		low = high;
		high += 1;
		if (high > Math.log(2) && missAt(Math.log(2)) < 0) return null;
	} while (missAt(high) < 0);
	for (let step = 0; step < 40; step++) {
		const middle = (low + high) / 2;
		if (missAt(middle) < 0) low = middle;
		else high = middle;
		if (high - low < 1e-6) break;
	}
	return Math.exp((low + high) / 2);
}

/** The IF curve for a weak signal, from the converter's grid to the diode: decibels of its peak. */
export interface IfCurve {
	readonly peakHz: number;
	/** Level at a frequency, decibels below the peak, 0 or negative. */
	levelDb(frequencyHz: number): number;
	/** Width 6 dB below the peak; from the outermost crossings where there are several. */
	readonly width6Hz: number;
}

/** The IF curve of a set as it stands, weak signal. */
export function ifCurve(set: BenchSet): IfCurve {
	const values = valuesAt(set, 0.5);
	const { ifTubeS, diodeS } = workingTubes(values);
	const response = new StripResponse(values, ifTubeS, diodeS, node.converterPlate, node.diode);
	const decibels = (frequencyHz: number): number => {
		const [re, im] = response.at(frequencyHz);
		return 10 * Math.log10(re * re + im * im);
	};
	const stepHz = 50;
	const lowest = set.design.ifHz - 60e3;
	let peakHz = lowest;
	let peakDb = Number.NEGATIVE_INFINITY;
	const levels: number[] = [];
	for (let k = 0; k <= 120e3 / stepHz; k++) {
		const level = decibels(lowest + k * stepHz);
		levels.push(level);
		if (level > peakDb) {
			peakDb = level;
			peakHz = lowest + k * stepHz;
		}
	}
	const above = levels.map((level) => level >= peakDb - 6.0206);
	const crossing = (at: number, next: number): number => {
		const inside = levels[at] as number;
		const outside = levels[next] as number;
		return lowest + stepHz * (at + ((next - at) * (inside - peakDb + 6.0206)) / (inside - outside));
	};
	const first = above.indexOf(true);
	const last = above.lastIndexOf(true);
	const width6Hz =
		first > 0 && last < levels.length - 1 ? crossing(last, last + 1) - crossing(first, first - 1) : Number.NaN;
	return { peakHz, width6Hz, levelDb: (frequencyHz) => decibels(frequencyHz) - peakDb };
}
