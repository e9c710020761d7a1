import type { TestAnswer } from '#advice/trouble/ranking.ts';
import { type TestId, tests } from '#advice/trouble/tests.ts';
import type { TroubleId } from '#advice/trouble/troubles.ts';
import { createRandom, type Random } from '#core/numeric/random.ts';
import { type BenchSet, tuningAtMark, valuesAt } from '#core/receiver/bench-set.ts';
import { factoryTurns } from '#core/receiver/factory.ts';
import { SteadyState } from '#core/receiver/operating-point.ts';
import { receivedHz, sensitivityV } from '#core/receiver/sensitivity.ts';
import { SetStream } from '#core/receiver/set-stream.ts';
import { standardTone } from '#core/receiver/signal.ts';
import { oscillates } from '#core/receiver/weak-gain.ts';
import { type Heard, leastClicks, listenTo } from '#core/signal/listener.ts';
import { StripLook } from './strip-look.ts';

/** Scatter of a level found with a generator's attenuator, decibels (chosen). */
const levelScatterDb = 1;
/** More than this beside what it should be counts as weak, decibels. */
const weakDb = 6;
const deadDb = 40;
const fullScaleV = 4;
const rateHz = 48e3;

/** What a simulated person sees, reads and hears of an aligned set, in the outcomes of the tests of trouble. It knows the set only by reading it against the same set in health. */
export class TroubleHand {
	readonly #set: BenchSet;
	readonly #healthy: BenchSet;
	readonly #random: Random;
	readonly #look: StripLook;
	/** What a changed part cures; the person tries it and hears. */
	readonly #cures: readonly TestId[];
	#heard: Heard | null = null;
	#losses: readonly number[] | null = null;

	constructor(set: BenchSet, cures: readonly TestId[], seed: number) {
		this.#set = set;
		this.#healthy = { ...set, faults: [], turns: factoryTurns(set.design), pointerSlipM: 0 };
		this.#random = createRandom(seed ^ 0x7e57);
		this.#look = new StripLook(set, this.#healthy, this.#random);
		this.#cures = cures;
	}

	/** Decibels more signal than in health, low to high. */
	get #lossesDb(): readonly number[] {
		this.#losses ??= this.#set.design.testHz.map((mark) => {
			const needed = sensitivityV(this.#set, mark) ?? 2;
			const scatter = levelScatterDb * this.#random.gaussian();
			return 20 * Math.log10(needed / (sensitivityV(this.#healthy, mark) ?? 2)) + scatter;
		});
		return this.#losses;
	}

	#threePoints(): string {
		const losses = this.#lossesDb;
		const [low = 0, middle = 0, high = 0] = losses;
		const most = Math.max(...losses);
		const least = Math.min(...losses);
		if (most < weakDb) return 'expected';
		if (most > deadDb && least < 15) return 'part';
		if (most - least < weakDb) return 'alike';
		if (low > middle && low > high) return 'low';
		return high > middle || high > low + weakDb ? 'high' : 'alike';
	}

	#dial(): string {
		const { lowHz, highHz } = this.#set.design.band;
		const marks = [0.08, 0.3, 0.5, 0.7, 0.92].map((share) => lowHz + share * (highHz - lowHz));
		const errors = marks.map((mark) => receivedHz(this.#set, mark) - receivedHz(this.#healthy, mark));
		const [low = 0, , middle = 0, , high = 0] = errors;
		const worst = Math.max(...errors.map(Math.abs));
		if (worst < 8e3) return 'true';
		const mean = errors.reduce((sum, one) => sum + one, 0) / errors.length;
		if (errors.every((one) => Math.abs(one - mean) < 0.3 * Math.abs(mean))) return 'kilocycles';
		if (Math.abs(high) === worst || Math.abs(high) > 1.5 * Math.abs(low)) return 'high';
		return Math.abs(low) > Math.abs(middle) ? 'low' : 'middle';
	}

	/** Four seconds of the voice coil, generator down or with a carrier. */
	#sound(levelV: number, volume = 1): Heard {
		const values = valuesAt(this.#set, tuningAtMark(this.#set, 1e6), volume);
		const signal = { frequencyHz: receivedHz(this.#set, 1e6), levelV, toneHz: 400, depth: 0, into: 'antenna' } as const;
		const stream = new SetStream(values, [signal], rateHz, this.#random.uniform() * 1e6);
		stream.fill(new Float64Array(rateHz / 4));
		const samples = new Float64Array(4 * rateHz);
		stream.fill(samples);
		return listenTo(
			samples.map((volts) => volts / fullScaleV),
			rateHz,
			400,
		);
	}

	get #silence(): Heard {
		this.#heard ??= this.#sound(0);
		return this.#heard;
	}

	#steady(levelV: number, set = this.#set) {
		const values = valuesAt(set, tuningAtMark(set, 1e6));
		return new SteadyState(values).operatingPoint({
			frequencyHz: receivedHz(set, 1e6),
			levelV,
			...standardTone,
			into: 'antenna',
		});
	}

	#sixDb(): string {
		const levelV = 3 * (sensitivityV(this.#healthy, 1e6) ?? 1e-4);
		const risenDb = 20 * Math.log10(this.#steady(2 * levelV).toneV / this.#steady(levelV).toneV);
		return risenDb < 4 ? 'less' : risenDb < 8 ? 'follows' : 'more';
	}

	#audio(): string {
		const { gain, mostV } = valuesAt(this.#set, 0.5).audio;
		const sound = this.#set.design.audio;
		const gainDb = 20 * Math.log10(gain / sound.gain) + levelScatterDb * this.#random.gaussian();
		if (mostV < 0.75 * sound.mostV && this.#random.uniform() < 0.5) return 'strained';
		return gainDb < -4 ? 'weak' : 'expected';
	}

	/** Tests that look at the set by their own physics; the rest answer as a set without their causes does. */
	#looked(test: TestId): string | null {
		const { design } = this.#set;
		switch (test) {
			case 'three-points':
				return this.#threePoints();
			case 'dial-pattern':
				return this.#dial();
			case 'silence':
				return this.#silence.kind;
			case 'volume-down':
				return this.#sound(0, 0).levelDbfs > this.#silence.levelDbfs - 10 ? 'stays' : 'goes';
			case 'hum-pitch':
				return this.#silence.hum?.leads ?? 'none';
			case 'hum-carrier':
				return this.#silence.hum === null ? 'none' : 'always';
			case 'crackle-steps':
				return this.#sound(1e-3).clicksPerMinute >= leastClicks ? 'jumps' : 'steady';
			case 'dial-whistle':
				return this.#silence.kind === 'squeal' || oscillates(valuesAt(this.#set, 0.5)) ? 'through-nought' : 'none';
			case 'avc-rest':
				return oscillates(valuesAt(this.#set, 0.5)) ? 'volts' : 'nought';
			case 'avc-share': {
				const { avcV, detectorV } = this.#steady(0.01);
				return avcV / detectorV > 0.7 ? 'nearly' : 'less';
			}
			case 'strong-signal':
				return this.#steady(0.1).carrierV > 2 * this.#steady(0.1, this.#healthy).carrierV ? 'strained' : 'clean';
			case 'six-db':
				return this.#sixDb();
			case 'audio-tone':
				return this.#audio();
			case 'b-plus':
				return valuesAt(this.#set, 0.5).audio.mostV < 0.8 * design.audio.mostV ? 'low' : 'chart';
			case 'oscillator-heard':
				return this.#threePoints() === 'part' ? 'stops' : 'everywhere';
			case 'trap-turn':
				return this.#look.trapReach();
			case 'antenna-ohms':
				return valuesAt(this.#set, 0.5).antenna.primaryOhm > 1e6 ? 'open' : 'path';
			case 'ohms':
				return valuesAt(this.#set, 0.5).windings.some(({ siemens }) => siemens > 1e-3) ? 'short' : 'alike';
			case 'end-comes-in':
				return ['oscillator', 'padder'].includes(this.#look.adjusterEnd()) ? 'stop' : 'comes';
			default:
				return this.#look.outcome(test);
		}
	}

	/** The outcome of a test on this set. */
	answer(test: TestId): TestAnswer {
		const { outcomes, otherwise } = tests[test];
		if (this.#cures.includes(test)) return { test, outcome: 'cured' };
		const usual = outcomes[otherwise.indexOf(Math.max(...otherwise))]?.id ?? '';
		return { test, outcome: this.#looked(test) ?? usual };
	}

	/** What the person says is the matter after an alignment: what is heard first, then what stood out while aligning, then what the checks show. */
	symptom(): TroubleId {
		const heard = this.#silence.kind;
		if (heard === 'hum' || heard === 'crackle' || heard === 'putting' || heard === 'squeal') return heard;
		if (oscillates(valuesAt(this.#set, 0.5))) return 'squeal';
		const where = this.#threePoints();
		if (where === 'part') return 'oscillator-dies';
		if (this.#look.adjusterEnd() !== 'none') return 'end-of-travel';
		if (where === 'low') return 'low-end-deaf';
		if (where === 'high') return 'high-end-deaf';
		if (where === 'alike') return 'weak';
		const curve = this.#look.curve();
		if (curve === 'alike' || curve === 'lopsided') return 'two-peaks';
		if (curve !== 'one') return 'width';
		const dial = this.#dial();
		if (dial === 'kilocycles') return 'dial-all-over';
		if (dial !== 'true') return 'dial-one-end';
		if (where === 'expected' && this.answer('strong-signal').outcome === 'strained') return 'strong-overloads';
		return 'weak';
	}
}
