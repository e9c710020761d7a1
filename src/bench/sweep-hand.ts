import type { AskedMeter, Done, Generator, NotDone } from '#instruments/instrument.ts';
import type { LevelReading } from '#record/reading.ts';
import type { SweptReading } from '#record/swept-reading.ts';
import { sameAfterPauseDb } from './steady-reference.ts';

/** How the work goes on: as it was, after a pause in which the output was off, or not at all. */
export type Turn = 'on' | 'resumed' | 'stopped';

/** What a sweep works with. Every reading is kept before it counts. */
export interface SweepGround {
	readonly generator: Generator;
	readonly meter: AskedMeter;
	readonly waitMs: (ms: number) => Promise<void>;
	readonly keep: (point: SweptReading) => Promise<unknown>;
	/** Puts a question of the generator to the person. */
	readonly agrees: (words: string) => Promise<boolean>;
	/** Awaited before each reading: a pause lasts until this is fulfilled. */
	readonly turn: () => Promise<Turn>;
	/** Told after each place. */
	readonly progress: (done: number, of: number) => void;
}

/** Why automatic work ended before its end. */
export type Left = { readonly kind: 'stopped' } | { readonly kind: 'no signal' } | NotDone;

/** Readings of one place until two in a row agree; so many at most. */
const mostReadings = 10;
/** Two readings agree when they differ by no more than so many times their scatter (chosen). */
const agreement = 1.5;
/** Of those, the last that are taken together when no two in a row agree. */
const restlessReadings = 6;
/** A level that scatters by more than this tells nothing (chosen). */
const mostScatterDb = 3;
/** Of a meter that does not say how well it reads. */
const usualScatterDb = 0.1;
/** The least that is waited after the generator was set, milliseconds (chosen: a fifth of a second lets AVC show that it moves). */
const firstWaitMs = 100;
/** Thrown within a sweep to leave it at once; caught by `seenThrough`. */
export class SweepLeft extends Error {
	readonly end: Left;
	constructor(end: Left) {
		super(end.kind);
		this.end = end;
	}
}

/** Leaves the work when a generator did not do what it was told; what a value went out as, where it was rounded. */
function must(done: Done): number | undefined {
	if (done.kind !== 'done') throw new SweepLeft(done);
	return done.sent;
}

/** A level once it has come to rest; `null` where nothing was heard. */
export interface Settled {
	readonly frequencyHz: number;
	readonly levelDb: number | null;
	readonly uncertaintyDb: number | null;
}

/** Sets, waits and reads, and keeps what was read. */
export class SweepHand {
	readonly #ground: SweepGround;
	readonly #name: string;
	levelV: number;
	#modulation: { readonly toneHz: number; readonly depth: number } | null = null;
	/** The place that was read last, for the reading after a pause. */
	#last: (Settled & { readonly levelV: number }) | null = null;

	/** @param name of the sweep, as it is kept */
	constructor(ground: SweepGround, name: string, levelV: number) {
		this.#ground = ground;
		this.#name = name;
		this.levelV = levelV;
	}

	async setLevel(levelV: number): Promise<void> {
		const { generator, agrees } = this.#ground;
		const done = await generator.setLevel(levelV);
		const sentV = must(done.kind === 'asks' && (await agrees(done.words)) ? await generator.raiseLevel(levelV) : done);
		this.levelV = sentV ?? levelV;
	}

	/** Sets the level as far as the generator reaches; whether it took it. */
	async reachesLevel(levelV: number): Promise<boolean> {
		try {
			await this.setLevel(levelV);
			return true;
		} catch (error) {
			if (error instanceof SweepLeft && error.end.kind === 'refused') return false;
			throw error;
		}
	}

	async modulate(toneHz: number, depth: number): Promise<void> {
		must(await this.#ground.generator.modulate(toneHz, depth));
		this.#modulation = { toneHz, depth };
	}

	/** Frequency, level and modulation first, then the output. */
	async begin(frequencyHz: number, toneHz: number, depth: number): Promise<void> {
		must(await this.#ground.generator.setFrequency(frequencyHz));
		await this.setLevel(this.levelV);
		await this.modulate(toneHz, depth);
		must(await this.#ground.generator.switchOn());
	}

	/** Output off while a hand is at the set, and on again after it; what was read before is not expected to come out again. */
	async whileOff<Done>(doing: () => Promise<Done>): Promise<Done> {
		must(await this.#ground.generator.switchOff());
		const done = await doing();
		this.#last = null;
		const turn = await this.#ground.turn();
		if (turn === 'stopped') throw new SweepLeft({ kind: 'stopped' });
		if (turn === 'resumed') await this.#setAnew();
		must(await this.#ground.generator.switchOn());
		return done;
	}

	/** Level and modulation once more, since hands may have been at the generator. */
	async #setAnew(): Promise<void> {
		must(await this.#ground.generator.raiseLevel(this.levelV));
		if (this.#modulation) await this.modulate(this.#modulation.toneHz, this.#modulation.depth);
	}

	/** After a pause everything is set anew, and the last reading has to come out again. */
	async #resume(frequencyHz: number): Promise<void> {
		const { generator, agrees, waitMs } = this.#ground;
		const last = this.#last;
		const levelV = this.levelV;
		const settle = async (atHz: number, atV: number): Promise<void> => {
			must(await generator.setFrequency(atHz));
			must(await generator.raiseLevel(atV));
			await waitMs(firstWaitMs);
		};
		await this.#setAnew();
		if (last === null || last.levelDb === null) {
			await settle(frequencyHz, levelV);
			must(await generator.switchOn());
			await waitMs(firstWaitMs);
			return;
		}
		await settle(last.frequencyHz, last.levelV);
		must(await generator.switchOn());
		const again = await this.levelAt(last.frequencyHz, 'reference');
		const differsDb = again.levelDb === null ? Number.NEGATIVE_INFINITY : again.levelDb - last.levelDb;
		const limitDb = Math.max(sameAfterPauseDb, 3 * Math.hypot(again.uncertaintyDb ?? 0, last.uncertaintyDb ?? 0));
		if (Math.abs(differsDb) > limitDb) {
			const words = Number.isFinite(differsDb)
				? `${Math.abs(differsDb).toFixed(1)} dB ${differsDb < 0 ? 'lower' : 'higher'}`
				: 'as nothing';
			if (!(await agrees(`The last reading before the pause comes out ${words} now. Go on all the same?`)))
				throw new SweepLeft({ kind: 'stopped' });
		}
		await settle(frequencyHz, levelV);
	}

	async #read(frequencyHz: number, purpose: SweptReading['purpose']): Promise<LevelReading> {
		const turn = await this.#ground.turn();
		if (turn === 'stopped') throw new SweepLeft({ kind: 'stopped' });
		if (turn === 'resumed') await this.#resume(frequencyHz);
		const reading = await this.#ground.meter.read();
		if (reading.kind !== 'level') throw new SweepLeft(reading);
		await this.#ground.keep({
			kind: 'swept reading',
			sweep: this.#name,
			purpose,
			frequencyHz,
			levelV: this.levelV,
			reading,
		});
		return reading;
	}

	/** The level at a frequency once two readings in a row agree within what they scatter: AVC has come to rest. */
	async levelAt(frequencyHz: number, purpose: SweptReading['purpose']): Promise<Settled> {
		const settled = await this.#settledAt(frequencyHz, purpose);
		this.#last = { ...settled, levelV: this.levelV };
		return settled;
	}

	async #settledAt(askedHz: number, purpose: SweptReading['purpose']): Promise<Settled> {
		const frequencyHz = must(await this.#ground.generator.setFrequency(askedHz)) ?? askedHz;
		await this.#ground.waitMs(firstWaitMs);
		const read: LevelReading[] = [await this.#read(frequencyHz, purpose)];
		while (read.length < mostReadings) {
			read.push(await this.#read(frequencyHz, purpose));
			const [one, other] = read.slice(-2).map(({ levelDb }) => levelDb);
			if (!one && !other) return { frequencyHz, levelDb: null, uncertaintyDb: null };
			if (!one || !other) continue;
			const scatterDb = Math.hypot(one.uncertainty ?? usualScatterDb, other.uncertainty ?? usualScatterDb);
			if (Math.abs(one.value - other.value) > agreement * scatterDb) continue;
			// What is left of AVC's way may be as much as the two could still differ by unseen.
			const uncertaintyDb = Math.hypot(scatterDb / 2, (agreement * scatterDb) / Math.sqrt(3));
			return { frequencyHz, levelDb: (one.value + other.value) / 2, uncertaintyDb };
		}
		return this.#restless(frequencyHz, read.slice(-restlessReadings));
	}

	/** Readings that scatter by more than the meter says, as near the floor: their mean, as well as their scatter lets it be known. */
	#restless(frequencyHz: number, read: readonly LevelReading[]): Settled {
		const levels = read.flatMap(({ levelDb }) => (levelDb ? [levelDb.value] : []));
		if (levels.length < read.length) return { frequencyHz, levelDb: null, uncertaintyDb: null };
		const levelDb = levels.reduce((sum, level) => sum + level, 0) / levels.length;
		const scatterDb = Math.sqrt(levels.reduce((sum, level) => sum + (level - levelDb) ** 2, 0) / (levels.length - 1));
		if (scatterDb <= mostScatterDb)
			return { frequencyHz, levelDb, uncertaintyDb: scatterDb / Math.sqrt(levels.length) };
		throw new SweepLeft({
			kind: 'failed',
			words: `the meter does not come to rest at ${(frequencyHz / 1e3).toFixed(1)} kc: is the set oscillating, or a programme heard?`,
		});
	}
}

const mayBeOn = ({ words }: NotDone): string => `the generator may still be on: switch it off by hand (${words})`;

/** Does work on the instruments; whatever happens, the generator is switched off at the end. Where that fails too, both are told. */
export async function seenThrough<End>(ground: SweepGround, work: () => Promise<End>): Promise<End | Left> {
	let end: End | Left;
	let left: Left | null = null;
	try {
		end = await work();
	} catch (error) {
		if (!(error instanceof SweepLeft)) {
			const off = await ground.generator.switchOff();
			if (off.kind === 'done') throw error;
			const words = error instanceof Error ? error.message : String(error);
			throw new Error(`${words}; and ${mayBeOn(off)}`, { cause: error });
		}
		left = error.end;
		end = left;
	}
	const off = await ground.generator.switchOff();
	if (off.kind === 'done') return end;
	return { kind: 'failed', words: left && 'words' in left ? `${left.words}; and ${mayBeOn(off)}` : mayBeOn(off) };
}
