import { createRandom } from '#core/numeric/random.ts';
import { AudioStream } from './audio-stage.ts';
import { CarrierStream, frameHzOf } from './carrier-stream.ts';
import { DetectorStream } from './detector-stream.ts';
import { CrackleStream, RumbleStream } from './disturbance-stream.ts';
import { node } from './if-strip.ts';
import type { SetSignal } from './signal.ts';
import { fedNodes, StripStepper } from './strip-stepper.ts';
import { stripStates } from './strip-system.ts';
import { ToneStream } from './tone-stream.ts';
import { tubeShare } from './tube-law.ts';
import { type SetValues, valuesBetween } from './values.ts';

/** Boltzmann's constant times 290 K, joules. */
const thermalJ = 1.380649e-23 * 290;
/** While an adjuster moves the strip is reckoned anew this often, samples: finer than a screw can be heard to step. */
const stretch = 32;
/** An adjuster glides to where it was put over this many stretches. */
const glide = 75;

const feeds = fedNodes.length;
const fed = { converter: 0, ifGrid: 1, ifTube: 2, diode: 3 } as const;
type Feed = (typeof fed)[keyof typeof fed];

/** Those that are carriers: the one at the volume control is a tone alone. */
const modulated = (signals: readonly SetSignal[]): readonly SetSignal[] =>
	signals.filter(({ into }) => into !== 'audio grid');

/**
 * A set in time: what its voice coil gives, sample by sample, while signals, screws and knobs move. The strip is stepped exactly in a frame that
 * turns at the IF or with the strongest carrier; tube and diode are solved at each sample; detector, AVC line and audio follow. The laws are those of the steady state.
 */
export class SetStream {
	readonly #periodS: number;
	readonly #random: ReturnType<typeof createRandom>;
	readonly #detector: DetectorStream;
	readonly #audio: AudioStream;
	#carriers: readonly CarrierStream[] = [];
	readonly #tone: ToneStream;
	readonly #noiseV: number;
	readonly #crackle: CrackleStream;
	readonly #rumble: RumbleStream;
	#state = { re: new Float64Array(stripStates), im: new Float64Array(stripStates) };
	#fresh = { re: new Float64Array(stripStates), im: new Float64Array(stripStates) };
	readonly #fed = { re: new Float64Array(feeds), im: new Float64Array(feeds) };
	readonly #fedLast = { re: new Float64Array(feeds), im: new Float64Array(feeds) };
	#values: SetValues;
	#from: SetValues;
	#to: SetValues;
	#frameHz: number;
	readonly #step: StripStepper;
	#toGo = 0;
	#signalsToGo = 0;
	#untilStretch = 0;

	/** @param seed of the noise; `null` for a set without any */
	constructor(values: SetValues, signals: readonly SetSignal[], sampleRateHz: number, seed: number | null) {
		this.#periodS = 1 / sampleRateHz;
		this.#values = values;
		this.#from = values;
		this.#to = values;
		this.#random = createRandom(seed ?? 0);
		// A voltage in a band as wide as the sampling rate, its two parts each with this deviation.
		const noiseOhm = seed === null ? 0 : values.tubes.converterNoiseOhm;
		this.#noiseV = Math.sqrt(4 * thermalJ * noiseOhm * sampleRateHz);
		this.#crackle = new CrackleStream(this.#periodS, seed ?? 0);
		this.#rumble = new RumbleStream(this.#periodS);
		this.#tone = new ToneStream(this.#periodS);
		this.#frameHz = frameHzOf(values, modulated(signals), this.#periodS);
		this.#step = new StripStepper(values, this.#periodS, this.#frameHz);
		this.#detector = new DetectorStream(values, this.#periodS);
		this.#audio = new AudioStream(values.audio, this.#periodS);
		this.feed(signals);
	}

	/** Volts of the AVC line, 0 or negative. */
	get avcV(): number {
		return -this.#detector.avcV;
	}

	/** Volts at the detector's load, 0 or negative. */
	get detectorV(): number {
		return -this.#detector.loadV;
	}

	/** Moves the set to other values and other signals without a step in the sound. */
	change(values: SetValues, signals: readonly SetSignal[]): void {
		this.#from = this.#values;
		this.#to = values;
		this.#toGo = glide;
		this.#detector.change(values);
		this.feed(signals);
	}

	/** Feeds other signals in, the set staying as it is: each goes on as the one in its place; one that has none before it, or after it, begins or ends at once. */
	feed(signals: readonly SetSignal[]): void {
		this.#signalsToGo = glide;
		this.#untilStretch = 0;
		const carriers = modulated(signals);
		const hasTurned = this.#turnAt(frameHzOf(this.#to, carriers, this.#periodS));
		const placed: CarrierStream[] = [];
		const around = { frameHz: this.#frameHz, periodS: this.#periodS, beside: placed };
		this.#tone.lead(
			signals.find(({ into }) => into === 'audio grid'),
			glide * stretch,
		);
		for (const [k, signal] of carriers.entries()) {
			const carrier = this.#carriers[k];
			carrier?.change(this.#to, signal, glide * stretch * this.#periodS, around);
			// What the curve between samples takes of a carrier is another at once, and so are amplitudes that make up for it.
			if (hasTurned) carrier?.settle();
			placed.push(carrier ?? new CarrierStream(this.#to, signal, around));
		}
		this.#carriers = placed;
	}

	/** Lets the frame turn at another frequency from this sample on, at which both frames stand alike; the currents one sample ago then stood elsewhere in the new one. */
	#turnAt(frameHz: number): boolean {
		if (frameHz === this.#frameHz) return false;
		const angle = 2 * Math.PI * (frameHz - this.#frameHz) * this.#periodS;
		const { re, im } = this.#fedLast;
		for (let feed = 0; feed < feeds; feed++) {
			const [lastRe, lastIm] = [re[feed] as number, im[feed] as number];
			re[feed] = lastRe * Math.cos(angle) - lastIm * Math.sin(angle);
			im[feed] = lastRe * Math.sin(angle) + lastIm * Math.cos(angle);
		}
		this.#frameHz = frameHz;
		this.#step.change(this.#crackle.apply(this.#values), frameHz);
		return true;
	}

	/** Fills a block with volts at the voice coil. */
	fill(block: Float32Array | Float64Array): void {
		for (let k = 0; k < block.length; k++) {
			if (this.#untilStretch === 0) this.#glide();
			this.#untilStretch--;
			this.#advance();
			const loadV = this.#tone.advance() - this.#detector.loadV;
			const soundV = this.#audio.advance(this.#values.audio, loadV, this.#values.volume);
			block[k] = soundV + this.#rumble.advance(this.#values.disturbance);
		}
	}

	#glide(): void {
		this.#untilStretch = stretch;
		const hasJumped = this.#crackle.advance(this.#values.disturbance, stretch);
		// Amplitudes have come to where they were led once the last stretch is over.
		if (this.#signalsToGo > 0) {
			this.#signalsToGo--;
			if (this.#signalsToGo === 0) for (const carrier of this.#carriers) carrier.settle();
		}
		if (this.#toGo === 0) {
			if (hasJumped) this.#step.change(this.#crackle.apply(this.#values), this.#frameHz);
			return;
		}
		this.#toGo--;
		this.#values = this.#toGo === 0 ? this.#to : valuesBetween(this.#from, this.#to, 1 - this.#toGo / glide);
		this.#step.change(this.#crackle.apply(this.#values), this.#frameHz);
	}

	/** Takes note of a current at the next sample and feeds it in. */
	#feed(feed: Feed, currentReA: number, currentImA: number): void {
		const { re: nextRe, im: nextIm } = this.#step.next;
		const { re, im } = this.#fresh;
		for (let row = 0; row < stripStates; row++) {
			const at = row * feeds + feed;
			const nRe = nextRe[at] as number;
			const nIm = nextIm[at] as number;
			re[row] = (re[row] as number) + nRe * currentReA - nIm * currentImA;
			im[row] = (im[row] as number) + nRe * currentImA + nIm * currentReA;
		}
		this.#fedLast.re[feed] = this.#fed.re[feed] as number;
		this.#fedLast.im[feed] = this.#fed.im[feed] as number;
		this.#fed.re[feed] = currentReA;
		this.#fed.im[feed] = currentImA;
	}

	#advance(): void {
		this.#coast();
		this.#signals();
		this.#tube();
		const { re, im } = this.#fresh;
		const { re: nextRe, im: nextIm } = this.#step.next;
		const at = node.diode * feeds + fed.diode;
		const detector = this.#detector;
		detector.openReV = re[node.diode] as number;
		detector.openImV = im[node.diode] as number;
		detector.gainReOhm = nextRe[at] as number;
		detector.gainImOhm = nextIm[at] as number;
		detector.advance();
		this.#feed(fed.diode, detector.currentReA, detector.currentImA);
		const held = this.#state;
		this.#state = this.#fresh;
		this.#fresh = held;
	}

	/** Signals and noise at the converter's plate, and what comes straight to the IF tube's grid. */
	#signals(): void {
		let re = 0;
		let im = 0;
		let gridRe = 0;
		let gridIm = 0;
		for (const carrier of this.#carriers) {
			carrier.advance(this.#periodS);
			if (carrier.place.entry === node.ifGrid) {
				gridRe += carrier.currentReA;
				gridIm += carrier.currentImA;
			} else {
				re += carrier.currentReA;
				im += carrier.currentImA;
			}
		}
		if (this.#noiseV > 0) {
			const noiseA = this.#noiseV * this.#values.tubes.conversionS;
			re += noiseA * this.#random.gaussian();
			im += noiseA * this.#random.gaussian();
		}
		re += this.#crackle.currentReA;
		im += this.#crackle.currentImA;
		this.#crackle.currentReA = 0;
		this.#crackle.currentImA = 0;
		const share = tubeShare(-this.#detector.avcAheadV, 0);
		this.#feed(fed.converter, re * share, im * share);
		this.#feed(fed.ifGrid, gridRe, gridIm);
	}

	/** The strip at the next sample by what it holds and by the currents so far. */
	#coast(): void {
		const { step, turn } = this.#step;
		const { re: nowRe, im: nowIm } = this.#step.now;
		const { re: lastRe, im: lastIm } = this.#step.last;
		const { re: xRe, im: xIm } = this.#state;
		const { re: jRe, im: jIm } = this.#fed;
		const { re: kRe, im: kIm } = this.#fedLast;
		for (let row = 0; row < stripStates; row++) {
			let re = 0;
			let im = 0;
			for (let column = 0; column < stripStates; column++) {
				const factor = step[row * stripStates + column] as number;
				re += factor * (xRe[column] as number);
				im += factor * (xIm[column] as number);
			}
			let sumRe = turn.re * re - turn.im * im;
			let sumIm = turn.re * im + turn.im * re;
			for (let feed = 0; feed < feeds; feed++) {
				const at = row * feeds + feed;
				const nRe = nowRe[at] as number;
				const nIm = nowIm[at] as number;
				const lRe = lastRe[at] as number;
				const lIm = lastIm[at] as number;
				const aRe = jRe[feed] as number;
				const aIm = jIm[feed] as number;
				const bRe = kRe[feed] as number;
				const bIm = kIm[feed] as number;
				sumRe += nRe * aRe - nIm * aIm + lRe * bRe - lIm * bIm;
				sumIm += nRe * aIm + nIm * aRe + lRe * bIm + lIm * bRe;
			}
			this.#fresh.re[row] = sumRe;
			this.#fresh.im[row] = sumIm;
		}
	}

	/** The IF tube's plate current. Its own reaction on its grid within the sample is slight: one repetition settles it. */
	#tube(): void {
		const { re: nextRe, im: nextIm } = this.#step.next;
		const at = node.ifGrid * feeds + fed.ifTube;
		const backRe = nextRe[at] as number;
		const backIm = nextIm[at] as number;
		let re = this.#fed.re[fed.ifTube] as number;
		let im = this.#fed.im[fed.ifTube] as number;
		for (let round = 0; round < 2; round++) {
			const gridRe = (this.#fresh.re[node.ifGrid] as number) + backRe * re - backIm * im;
			const gridIm = (this.#fresh.im[node.ifGrid] as number) + backRe * im + backIm * re;
			const swingV = Math.sqrt(gridRe * gridRe + gridIm * gridIm);
			const siemens = this.#values.tubes.ifTubeS * tubeShare(-this.#detector.avcAheadV, swingV);
			re = -siemens * gridRe;
			im = -siemens * gridIm;
		}
		this.#feed(fed.ifTube, re, im);
	}
}
