import { createRandom, type Random } from '#core/numeric/random.ts';
import { type BenchSet, tuningAtMark, valuesAt } from '#core/receiver/bench-set.ts';
import type { SetDesign } from '#core/receiver/design.ts';
import { type Fault, leakV } from '#core/receiver/faults.ts';
import { withLead } from '#core/receiver/lead.ts';
import { SteadyState } from '#core/receiver/operating-point.ts';
import { receivedHz } from '#core/receiver/sensitivity.ts';
import { type GeneratorPlace, type SetSignal, standardTone } from '#core/receiver/signal.ts';
import { stationSignal } from '#core/receiver/station.ts';
import { oscillatorHz, type SetValues } from '#core/receiver/values.ts';
import type { LevelReading } from '#record/reading.ts';
import { dialled, type GeneratorBeside, givenSignals, leakOf, oldGenerator } from './virtual-generator.ts';
import { type Clip, untouched, type VirtualState } from './virtual-state.ts';

/** Hum and hiss of supply and output stage at the voice coil, volts rms, volume up or down (chosen). */
export const floorV = 1e-3;
/** Share of the floor that falls into the meter's band around the tone (chosen). */
const floorShare = 0.3;
/** Scatter of one reading of a steady tone, decibels (chosen; as a sound card reads it). */
const scatterDb = 0.03;
/** The attenuator's ends, volts: a service generator's (chosen). */
export const leastLevelV = 1e-6;
export const mostLevelV = 1;

/** Conversion below this share of a sound set's tells that no oscillator runs: between what a tired tube and a stopped one leave. */
const silentShare = 1e-3;

const within = (value: number, least: number, most: number): number => Math.min(Math.max(value, least), most);

/** A simulated set with its generator and output meter: worked by the person's hands, read ten times a second. */
export class VirtualSet {
	readonly #found: BenchSet;
	#state: VirtualState;
	#generator: GeneratorPlace;
	#dialHz: number;
	/** Adjuster and way that are being pressed on now: one press is counted once, however many small turns it comes in. */
	#pressing: string | null = null;
	readonly #listeners = new Set<() => void>();
	readonly #random: Random;
	/** What the set's own faults have its generator leak round its attenuator, volts. */
	readonly #leakV: number;
	readonly #nowMs: () => number;
	/** Of the noise. */
	readonly seed: number;

	/**
	 * @param found the set as it came to the bench
	 * @param nowMs an old generator warms up, and a station's programme goes on, by it
	 */
	constructor(found: BenchSet, seed: number, kept: VirtualState | null, nowMs: () => number = Date.now) {
		this.#found = found;
		const { design } = found;
		this.#state = kept ?? untouched();
		// Where the pointer stood is not kept: a station is tuned in anew.
		this.#state = { ...this.#state, turns: { ...this.#found.turns, ...this.#state.turns }, stationHz: null };
		this.#generator = { frequencyHz: design.ifHz, ...standardTone, into: 'antenna' };
		this.#dialHz = design.band.lowHz;
		this.#leakV = leakV(found.faults);
		this.#nowMs = nowMs;
		this.seed = seed + 1;
		this.#random = createRandom(this.seed);
	}

	/** What the set was built as; its true settings are its own. */
	get design(): SetDesign {
		return this.#found.design;
	}

	get state(): VirtualState {
		return this.#state;
	}

	/** How generator and pointer stand now. */
	get placed(): { readonly generator: GeneratorPlace; readonly dialHz: number } {
		return { generator: this.#generator, dialHz: this.#dialHz };
	}

	/** Tells of every change of screws, knobs and generator until the answer is called. */
	onChange(changed: () => void): () => void {
		this.#listeners.add(changed);
		return () => this.#listeners.delete(changed);
	}

	/** Hooks the generator up, sets its dial and tone and puts the pointer on a mark. */
	place(generator: GeneratorPlace, dialHz: number): void {
		const { lowHz, highHz } = this.design.band;
		const pointerHz = within(dialHz, lowHz, highHz);
		// A station goes where the pointer leaves it.
		const stationHz = pointerHz === this.#dialHz ? this.#state.stationHz : null;
		this.#generator = generator;
		this.#dialHz = pointerHz;
		this.#change({ generator: dialled(this.#state.generator, generator.frequencyHz), stationHz });
	}

	/** The generator gives what it is set to. */
	get isExact(): boolean {
		return this.#state.generator.kind === 'good';
	}

	/** What the set is given goes on changing by itself: the generator warms up, or a station plays. */
	get isInMotion(): boolean {
		return !this.isExact || this.#state.stationHz !== null;
	}

	/** Puts a good generator beside the set, or an old one that was switched on so long ago. */
	takeGenerator(kind: GeneratorBeside['kind'], onForS = 0): void {
		const old = (): GeneratorBeside => oldGenerator(this.#nowMs() - 1e3 * onForS, this.#generator.frequencyHz);
		this.#change({ generator: kind === 'good' ? { kind } : old() });
	}

	/** Takes the generator's lead off the set, or puts it back. */
	moveLead(isLeadOn: boolean): void {
		if (this.#state.isLeadOn !== isLeadOn) this.#change({ isLeadOn });
	}

	/** Where a second receiver beside the set hears its oscillator; `null` when it is silent. */
	get oscillatorHeardHz(): number | null {
		const { values } = this;
		const runs = values.tubes.conversionS > silentShare * this.design.tubes.conversionS;
		return runs ? oscillatorHz(values) : null;
	}

	/** Tunes a station in with a short wire beside the antenna lead, as an ear would; `null` takes the wire off. */
	tuneIn(stationHz: number | null): void {
		if (stationHz !== null) this.#dialHz = this.#dialFor(stationHz);
		this.#change({ stationHz });
	}

	/** Where the pointer stands when a frequency comes in best; an end of the scale where it does not come in. */
	#dialFor(frequencyHz: number): number {
		let { lowHz, highHz } = this.design.band;
		for (let halving = 0; halving < 14; halving++) {
			const middleHz = (lowHz + highHz) / 2;
			if (receivedHz(this.standing, middleHz) < frequencyHz) lowHz = middleHz;
			else highHz = middleHz;
		}
		return (lowHz + highHz) / 2;
	}

	/** Turns an adjuster, clockwise positive; `false` when its stop was felt. Turned on against the stop it is strained. */
	turn(adjuster: string, turns: number): boolean {
		const travel = this.design.adjusters[adjuster]?.travelTurns;
		const now = this.#state.turns[adjuster];
		if (travel === undefined || now === undefined) return false;
		const at = within(now + turns, 0, travel);
		// What was at its stop already was felt there: turning on is force.
		const isForced = at === now && turns !== 0;
		if (!isForced) this.#pressing = null;
		const strains = isForced ? this.#strained(adjuster, turns) : this.#state.strains;
		this.#change({ turns: { ...this.#state.turns, [adjuster]: at }, strains });
		return at === now + turns;
	}

	#strained(adjuster: string, turns: number): VirtualState['strains'] {
		const { strains } = this.#state;
		const before = strains[adjuster] ?? { times: 0, turns: 0 };
		const way = turns > 0 ? 'tight' : 'loose';
		const pressing = `${adjuster} ${way}`;
		const times = before.times + (this.#pressing === pressing ? 0 : 1);
		this.#pressing = pressing;
		return { ...strains, [adjuster]: { times, turns: before.turns + Math.abs(turns), way } };
	}

	/** Whether an adjuster stands at an end of its travel. */
	isAtStop(adjuster: string): boolean {
		const at = this.#state.turns[adjuster];
		return at !== undefined && (at === 0 || at === this.design.adjusters[adjuster]?.travelTurns);
	}

	/** Turns the attenuator by decibels, within the generator's range. */
	changeLevel(stepDb: number): void {
		this.#change({ levelV: within(this.#state.levelV * 10 ** (stepDb / 20), leastLevelV, mostLevelV) });
	}

	/** Sets the volume control, 0 to 1. */
	setVolume(volume: number): void {
		this.#change({ volume: within(volume, 0, 1) });
	}

	/** Clips parts across IF windings in place of those that were there. */
	clip(clips: readonly Clip[]): void {
		this.#change({ clips });
	}

	/** The set as hands have left it, clips taken off. */
	get standing(): BenchSet {
		return { ...this.#found, turns: this.#state.turns };
	}

	/** Every value of the set, with what the generator's lead does to it. */
	get values(): SetValues {
		const values = this.valuesAt(this.#dialHz, this.#state.volume);
		return this.#state.isLeadOn ? withLead(values, this.#generator.into) : values;
	}

	/** What the generator itself gives now. */
	get signal(): SetSignal {
		return this.#given[0];
	}

	/** All that the set is given now, the generator's own frequency first: for its sound. */
	get signals(): readonly SetSignal[] {
		const { stationHz } = this.#state;
		return stationHz === null ? this.#given : [...this.#given, stationSignal(stationHz, this.#nowMs())];
	}

	get #given(): readonly [SetSignal, ...SetSignal[]] {
		const { generator, levelV, isLeadOn } = this.#state;
		const [own, ...harmonics] = givenSignals(generator, this.#generator, levelV, isLeadOn, this.#nowMs());
		return [{ ...own, levelV: Math.hypot(own.levelV, this.#leaksV(this.#leakV)) }, ...harmonics];
	}

	/** What leaks is carrier: a lead that brings the tone alone brings none of it. */
	#leaksV(volts: number): number {
		return this.#generator.into === 'audio grid' ? 0 : volts;
	}

	/** What the generator gives at its own lead, wherever that is clipped. */
	get atLead(): SetSignal {
		const place: GeneratorPlace = { ...this.#generator, into: 'antenna' };
		const { generator, levelV } = this.#state;
		return givenSignals(generator, place, levelV, true, this.#nowMs())[0];
	}

	/** What reaches the set with the attenuator at nought: what the generator leaks round it. */
	get generatorDown(): SetSignal {
		return { ...this.signal, levelV: this.#leaksV(Math.hypot(this.#leakV, leakOf(this.#state.generator))) };
	}

	/** Every value of the set as hands left it, with its pointer on a mark and its volume control at a place. */
	valuesAt(dialHz: number, volume: number): SetValues {
		const set = { ...this.standing, faults: [...this.#found.faults, ...this.#clipped()] };
		return valuesAt(set, tuningAtMark(set, dialHz), volume);
	}

	/** One reading of the tone at the voice coil, decibels of one volt; harmonics and stations are left out. */
	read(atMs: number): LevelReading {
		const { toneV } = new SteadyState(this.values).operatingPoint(this.signal);
		const common = { kind: 'level', atMs, instrument: 'virtual set', reference: 'dBV', quantity: 'tone' } as const;
		if (toneV < 2 * floorV) return { ...common, trust: 'too weak', levelDb: null };
		const uncertainty = Math.hypot(scatterDb, (20 / Math.LN10) * ((floorShare * floorV) / toneV));
		const value = 20 * Math.log10(toneV) + uncertainty * this.#random.gaussian();
		return { ...common, trust: 'ok', levelDb: { value, uncertainty } };
	}

	#change(change: Partial<VirtualState>): void {
		this.#state = { ...this.#state, ...change };
		this.#tell();
	}

	#tell(): void {
		for (const changed of this.#listeners) changed();
	}

	/** A part across a winding acts as a damped or a shifted winding does. */
	#clipped(): readonly Fault[] {
		return this.#state.clips.flatMap((clip): readonly Fault[] => {
			const winding = this.design.windings.findIndex(({ adjuster }) => adjuster === clip.adjuster);
			if (winding < 0) return [];
			if ('ohm' in clip) return [{ kind: 'winding damped', winding, ohm: clip.ohm }];
			return [{ kind: 'mica shifted', winding, farad: clip.farad }];
		});
	}
}
