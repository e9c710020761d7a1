import { dialHzPerM } from '#advice/dial/dial-marks.ts';
import { avcAsk, centreHz, edgeAsk, sensitivityAsk, testAsks } from '#advice/tests/asks.ts';
import { ReadingBook } from '#advice/tests/finding.ts';
import { testMarks } from '#advice/tests/marks.ts';
import type { Ask } from '#advice/tests/standard-test.ts';
import { createRandom, type Random } from '#core/numeric/random.ts';
import { withLead } from '#core/receiver/lead.ts';
import { SteadyState } from '#core/receiver/operating-point.ts';
import { inputForOutputV } from '#core/receiver/sensitivity.ts';
import { type GeneratorPlace, type SignalInto, standardTone } from '#core/receiver/signal.ts';
import { farthestEdgeHz, strongInputV, volumeFor } from '#core/receiver/test-figures.ts';
import { oscillatorHz, type SetValues } from '#core/receiver/values.ts';
import { lastDigit, withinLastDigit } from '#record/last-digit.ts';
import type { SetFacts } from '#record/set-facts.ts';
import type { TestGear, TestReading } from '#record/test-reading.ts';
import { FaultyGear, frequencyDigitHz, mostInputV, scatterDb } from './faulty-gear.ts';
import { carrierNoiseV, heardTone } from './set-sound.ts';

/** A simulated set: its values with the pointer on a mark and the volume control at a place. */
export type SetOnBench = (dialHz: number, volume: number) => SetValues;

/** Digits to which an attenuator and a meter are read (chosen). */
const levelDigits = 3;
/** Tone volts are never read below this: hum and hiss at the voice coil, volts rms (chosen). */
const floorV = 1e-3;

/** What a hand has set and what it reads from there. */
interface Standing {
	readonly steady: SteadyState;
	readonly values: SetValues;
}

/**
 * Takes every reading of the standard tests on a simulated set by generator, dial and meter alone, with the faults that the gear may have:
 * all drawn by seed within its limits. What it reads is as raw as what a person types.
 */
export class TestHand {
	readonly #set: SetOnBench;
	readonly #facts: SetFacts;
	readonly #gear: TestGear;
	readonly #random: Random;
	readonly #faults: FaultyGear;
	readonly #placed = new Map<number, number>();
	readonly #readings: TestReading[] = [];
	#avcVolume = 1;

	constructor(set: SetOnBench, facts: SetFacts, gear: TestGear, seed: number) {
		this.#set = set;
		this.#facts = facts;
		this.#gear = gear;
		// The gear is the same before and after, what chance does to a reading is not.
		this.#random = createRandom(2 * seed + (gear.moment === 'after' ? 1 : 0));
		this.#faults = new FaultyGear(gear, createRandom(seed), this.#random);
	}

	/** All readings of one moment, one after the other as the procedures ask for them. */
	*readings(): Generator<TestReading, void> {
		// Each ask is made with what was read before it.
		for (let at = 0; ; at++) {
			const ask = testAsks(this.#facts, this.#book)[at];
			if (!ask) return;
			const reading = this.#read(ask);
			if (!reading) continue;
			this.#readings.push(reading);
			yield reading;
		}
	}

	get #book(): ReadingBook {
		return new ReadingBook(this.#readings, this.#gear);
	}

	/** The gang's place for a mark: set once as well as eyes can, then left. */
	#dialHz(markHz: number): number {
		const { band } = testMarks(this.#facts);
		const found = this.#placed.get(markHz);
		if (found !== undefined) return found;
		const slipHz = dialHzPerM(this.#facts, band, markHz) * this.#gear.pointerM * this.#random.gaussian();
		const at = Math.min(Math.max(markHz + slipHz, band.lowHz), band.highHz);
		this.#placed.set(markHz, at);
		return at;
	}

	#stand(markHz: number, volume: number, lead: SignalInto = 'antenna'): Standing {
		const values = withLead(this.#set(this.#dialHz(markHz), volume), lead);
		return { values, steady: new SteadyState(values) };
	}

	#reading(ask: Ask, value: number | null, generatorHz?: number): TestReading {
		const { moment } = this.#gear;
		const isFrequency = ask.quantity === 'frequency';
		const shown =
			value === null
				? null
				: isFrequency
					? frequencyDigitHz * Math.round(value / frequencyDigitHz)
					: Number(value.toPrecision(levelDigits));
		const digit = isFrequency ? frequencyDigitHz : shown === null ? 0 : lastDigit(shown.toExponential(levelDigits - 1));
		return {
			kind: 'test reading',
			moment,
			test: ask.test,
			ask: ask.id,
			quantity: ask.quantity,
			value: shown,
			uncertainty: digit * withinLastDigit,
			...(generatorHz === undefined ? {} : { generatorHz: this.#faults.frequencyRead(generatorHz) }),
			instrument: 'virtual set',
		};
	}

	/** Where the generator stands for most output, by the meter: the input raised until the set is heard, then the best of what is read. */
	#tuned({ steady }: Standing, nearHz: number, reachHz: number, into: SignalInto, wantedV: number): number | null {
		const outputAt = (frequencyHz: number, levelV: number): number =>
			Math.hypot(steady.operatingPoint({ frequencyHz, ...standardTone, into, levelV }).toneV, floorV) *
			10 ** ((scatterDb * this.#random.gaussian()) / 20);
		const best = (aboutHz: number, stepHz: number, steps: number, levelV: number) => {
			let found = { frequencyHz: aboutHz, outputV: 0 };
			for (let k = -steps; k <= steps; k++) {
				const frequencyHz = aboutHz + k * stepHz;
				const outputV = outputAt(frequencyHz, levelV);
				if (outputV > found.outputV) found = { frequencyHz, outputV };
			}
			return found;
		};
		for (let levelV = 3e-6; levelV <= mostInputV; levelV *= 2) {
			const coarse = best(nearHz, reachHz / 60, 60, levelV);
			if (coarse.outputV >= wantedV / 2) return best(coarse.frequencyHz, reachHz / 600, 15, levelV).frequencyHz;
		}
		return null;
	}

	#read(ask: Ask): TestReading | null {
		const { work, dialHz } = ask;
		const wantedV = this.#book.standardV;
		const { middleHz } = testMarks(this.#facts);
		const reference = this.#book.valueOf(sensitivityAsk(middleHz));
		const inputV = (stand: Standing, place: GeneratorPlace): number | null =>
			this.#faults.shownV(inputForOutputV(stand.steady, place, this.#faults.broughtV(wantedV)));
		const at = (frequencyHz: number, into: SignalInto = 'antenna'): GeneratorPlace => ({
			frequencyHz,
			...standardTone,
			into,
		});
		switch (work.kind) {
			case 'input at best': {
				const stand = this.#stand(dialHz, 1);
				const { ifHz } = stand.values;
				const [nearHz, reachHz] =
					work.near === 'dial'
						? [dialHz, 120e3]
						: work.near === 'IF'
							? [ifHz, 20e3]
							: [(this.#book.valueOf(sensitivityAsk(dialHz))?.generatorHz ?? dialHz) + 2 * ifHz, 40e3];
				const bestHz = this.#tuned(stand, nearHz, reachHz, 'antenna', wantedV);
				return bestHz === null ? this.#reading(ask, null) : this.#reading(ask, inputV(stand, at(bestHz)), bestHz);
			}
			case 'input off tune': {
				const middle = centreHz(this.#book, middleHz);
				if (middle === null || !reference || !this.#book.valueOf(edgeAsk(2, 1))) return null;
				const stand = this.#stand(dialHz, 1);
				return this.#reading(ask, inputV(stand, at(this.#faults.setHz(middle + work.offHz))));
			}
			case 'edge':
				return reference ? this.#edge(ask, work.ratio, work.side, reference.value, wantedV) : null;
			case 'output at best': {
				if (reference?.generatorHz === undefined) return null;
				const stand = this.#stand(dialHz, 1);
				const signal = {
					...at(reference.generatorHz),
					depth: work.depth,
					levelV: this.#faults.givenV(reference.value * work.ratio),
				};
				const noiseV = carrierNoiseV(stand.values, signal.frequencyHz, signal.levelV, this.#soundSeed);
				const toneV = work.depth > 0 ? stand.steady.operatingPoint(signal).toneV : 0;
				return this.#reading(ask, this.#faults.meteredV(Math.hypot(toneV, noiseV)));
			}
			case 'output at input':
			case 'input for fall':
				return this.#avc(ask, reference?.generatorHz, wantedV);
			case 'output at distortion':
			case 'distortion':
				return this.#distortion(ask, reference?.generatorHz, wantedV);
			case 'output at tone': {
				if (reference?.generatorHz === undefined) return null;
				const signal = { ...at(reference.generatorHz), toneHz: work.toneHz, levelV: this.#faults.givenV(1e-3) };
				const { toneV } = this.#stand(dialHz, this.#avcVolume).steady.operatingPoint(signal);
				return this.#reading(ask, this.#faults.meteredV(Math.hypot(toneV, floorV)));
			}
			case 'quiet output':
				return this.#reading(ask, this.#faults.meteredV(floorV * (work.volume > 0 ? 1 : 0.5)));
			case 'oscillator':
				return this.#reading(ask, this.#faults.frequencyRead(oscillatorHz(this.#stand(dialHz, 1).values)));
			case 'input at point': {
				const { point } = work;
				const stand = this.#stand(dialHz, 1, point);
				if (work.at === 'tone') return this.#reading(ask, inputV(stand, at(dialHz, point)));
				const nearHz = work.at === 'IF' ? stand.values.ifHz : dialHz;
				const bestHz = this.#tuned(stand, nearHz, work.at === 'IF' ? 20e3 : 120e3, point, wantedV);
				return this.#reading(ask, bestHz === null ? null : inputV(stand, at(bestHz, point)));
			}
		}
	}

	#edge(ask: Ask, ratio: number, side: -1 | 1, referenceV: number, wantedV: number): TestReading | null {
		const shownV = referenceV * ratio;
		if (shownV > mostInputV) return this.#reading(ask, null);
		const { steady } = this.#stand(ask.dialHz, 1);
		const about = this.#book.valueOf(sensitivityAsk(ask.dialHz))?.generatorHz;
		if (about === undefined) return null;
		const levelV = this.#faults.givenV(shownV);
		const broughtV = this.#faults.broughtV(wantedV);
		const reaches = (frequencyHz: number): boolean =>
			steady.operatingPoint({ frequencyHz, ...standardTone, into: 'antenna', levelV }).toneV >= broughtV;
		const farHz = about + side * farthestEdgeHz;
		if (reaches(farHz)) return this.#reading(ask, null);
		const stepHz = 500;
		let inside = farHz;
		while (!reaches(inside)) {
			inside -= side * stepHz;
			if (side * (inside - about) < 0) return this.#reading(ask, null);
		}
		let outside = inside + side * stepHz;
		for (let halving = 0; halving < 8; halving++) {
			const middle = (inside + outside) / 2;
			if (reaches(middle)) inside = middle;
			else outside = middle;
		}
		return this.#reading(ask, this.#faults.frequencyRead((inside + outside) / 2));
	}

	#avc(ask: Ask, generatorHz: number | undefined, wantedV: number): TestReading | null {
		if (generatorHz === undefined) return null;
		const place: GeneratorPlace = { frequencyHz: generatorHz, ...standardTone, into: 'antenna' };
		const outputV = (volume: number, shownV: number): number =>
			this.#stand(ask.dialHz, volume).steady.operatingPoint({ ...place, levelV: this.#faults.givenV(shownV) }).toneV;
		if (ask.work.kind === 'output at input') {
			const { inputV } = ask.work;
			if (inputV === strongInputV)
				this.#avcVolume = volumeFor((volume) => outputV(volume, inputV), this.#faults.broughtV(wantedV));
			return this.#reading(ask, this.#faults.meteredV(Math.hypot(outputV(this.#avcVolume, inputV), floorV)));
		}
		if (ask.work.kind !== 'input for fall') return null;
		const strong = this.#book.valueOf(avcAsk(strongInputV));
		if (!strong) return null;
		const fallenV = this.#faults.broughtV(strong.value / 10 ** (ask.work.fallDb / 20));
		const { steady } = this.#stand(ask.dialHz, this.#avcVolume);
		return this.#reading(ask, this.#faults.shownV(inputForOutputV(steady, place, fallenV)));
	}

	get #soundSeed(): number {
		return Math.floor(this.#random.uniform() * 1e6);
	}

	#distortion(ask: Ask, generatorHz: number | undefined, wantedV: number): TestReading | null {
		if (generatorHz === undefined) return null;
		const inputV = this.#faults.givenV(1e-3);
		const heard = (volume: number) =>
			heardTone(this.#set(this.#dialHz(ask.dialHz), volume), generatorHz, inputV, this.#soundSeed);
		const volumeWhere = (isBelow: (sound: ReturnType<typeof heard>) => boolean): number => {
			let low = 0;
			let high = 1;
			for (let halving = 0; halving < 8; halving++) {
				const middle = (low + high) / 2;
				if (isBelow(heard(middle))) low = middle;
				else high = middle;
			}
			return (low + high) / 2;
		};
		if (ask.work.kind === 'output at distortion') {
			const { distortionShare } = ask.work;
			const full = heard(1);
			if (full.distortionShare < distortionShare) return this.#reading(ask, null);
			return this.#reading(
				ask,
				this.#faults.meteredV(heard(volumeWhere((sound) => sound.distortionShare < distortionShare)).outputV),
			);
		}
		return this.#reading(ask, heard(volumeWhere(({ outputV }) => outputV < wantedV)).distortionShare);
	}
}
