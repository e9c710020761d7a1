import { avcAsk, centreHz, sensitivityAsk, testAsks } from '#advice/tests/asks.ts';
import { ReadingBook } from '#advice/tests/finding.ts';
import { type TestMarks, testMarks } from '#advice/tests/marks.ts';
import type { Ask, AskWork } from '#advice/tests/standard-test.ts';
import type { Estimate } from '#core/numeric/estimate.ts';
import { standardTone } from '#core/receiver/signal.ts';
import { farthestEdgeHz, strongInputV } from '#core/receiver/test-figures.ts';
import type { SetFacts } from '#record/set-facts.ts';
import type { TestGear, TestName, TestReading } from '#record/test-reading.ts';
import type { Bench } from './bench.ts';
import { climb, inputForOutput, tuneForMost } from './input-search.ts';
import { type Left, SweepHand, SweepLeft, seenThrough } from './sweep-hand.ts';
import type { WorkGround } from './work-ground.ts';

/** Standard tests that generator and meter take by themselves, a hand at pointer and volume alone. */
export const drivenTests = [
	'sensitivity',
	'signal to noise',
	'selectivity',
	'rejection',
	'AVC',
	'audio response',
	'oscillator',
] as const satisfies readonly TestName[];

/** How many readings were taken. */
export interface TestsRead {
	readonly kind: 'read';
	readonly readings: number;
}

/** Where a search for the set begins: below what a healthy set needs. */
const firstInputV = 30e-6;
/** How far off its mark a dial may be, how far the IF of a set that was played with, and how far its image with both (chosen). */
const reachHz = { dial: 120e3, IF: 25e3, image: 40e3 } as const;
/** Edges are sought inward in steps that no lobe of an IF strip falls between, and then by halves. */
const inwardHz = 3e3;
const edgeWithinHz = 30;
const audioInputV = 1e-3;
const withLowVolume: readonly TestName[] = ['AVC', 'audio response'];

/** Volts of a level with its uncertainty. */
function voltsOf(levelDb: number, uncertaintyDb: number | null): Estimate {
	const value = 10 ** (levelDb / 20);
	return { value, uncertainty: value * (10 ** ((uncertaintyDb ?? 0) / 20) - 1) };
}

/** Marks one after the other, the middle first since others count from it; what wants the volume down comes last. */
function inOrder(asks: readonly Ask[], { middleHz, lowHz, highHz }: TestMarks): readonly Ask[] {
	const marks = [middleHz, lowHz, highHz];
	const place = ({ test, dialHz }: Ask): number =>
		withLowVolume.includes(test) ? 2 * marks.length : marks.includes(dialHz) ? marks.indexOf(dialHz) : marks.length;
	return asks.toSorted((one, other) => place(one) - place(other));
}

/** A reading, or `null` where it could not be had; an ask that cannot be read at all is left out. */
type Taken = { readonly value: Estimate | null; readonly generatorHz?: number } | 'left out';

/** Takes what the asks of the standard tests want. */
class TestTaker {
	readonly #ground: WorkGround;
	readonly #bench: Bench;
	readonly #facts: SetFacts;
	readonly #gear: TestGear;
	readonly #hand: SweepHand;
	/** Where pointer and volume stand; `false` where the hand left them. */
	#dialHz: number | false | null = null;
	#volume: 'full up' | 'at standard' | false | null = null;

	constructor(ground: WorkGround, bench: Bench, facts: SetFacts, gear: TestGear) {
		this.#ground = ground;
		this.#bench = bench;
		this.#facts = facts;
		this.#gear = gear;
		this.#hand = new SweepHand(ground, `tests ${gear.moment}`, firstInputV);
	}

	get #book(): ReadingBook {
		return new ReadingBook(this.#bench.state.testReadings, this.#gear);
	}
	get #wantedDb(): number {
		return 20 * Math.log10(this.#book.standardV);
	}

	/** The asks of these tests as they stand now: words and figures follow what was read before. */
	asks(tests: readonly TestName[]): readonly Ask[] {
		const driven: readonly TestName[] = drivenTests.filter((name) => tests.includes(name));
		const asks = testAsks(this.#facts, this.#book).filter(({ test }) => driven.includes(test));
		return inOrder(asks, testMarks(this.#facts));
	}

	async readAll(tests: readonly TestName[]): Promise<TestsRead> {
		const count = this.asks(tests).length;
		let readings = 0;
		await this.#hand.begin(testMarks(this.#facts).middleHz, standardTone.toneHz, standardTone.depth);
		for (let at = 0; at < count; at++) {
			const ask = this.asks(tests)[at] as Ask;
			const taken = (await this.#isPlaced(ask)) ? await this.#taken(ask) : 'left out';
			if (taken !== 'left out') {
				await this.#bench.keepTestReading(this.#reading(ask, taken));
				readings++;
			}
			this.#ground.progress(at + 1, count);
		}
		return { kind: 'read', readings };
	}

	#reading(ask: Ask, { value, generatorHz }: Exclude<Taken, string>): TestReading {
		return {
			kind: 'test reading',
			moment: this.#gear.moment,
			test: ask.test,
			ask: ask.id,
			quantity: ask.quantity,
			value: value === null ? null : value.value,
			uncertainty: value?.uncertainty ?? 0,
			...(generatorHz === undefined ? {} : { generatorHz }),
			instrument: this.#ground.meter.name.slice(0, 200),
		};
	}

	/** Pointer and volume where the ask wants them. */
	async #isPlaced({ dialHz, test }: Ask): Promise<boolean> {
		const { hand } = this.#ground;
		if (!withLowVolume.includes(test) && this.#volume !== 'full up') {
			const isDone = await this.#hand.whileOff(() => hand.setVolume('full up'));
			if (!isDone) return false;
			this.#volume = 'full up';
		}
		if (this.#dialHz === dialHz) return true;
		const isSet = await this.#hand.whileOff(() => hand.setPointer(dialHz));
		this.#dialHz = isSet ? dialHz : false;
		return isSet;
	}

	/** One ask; a frequency or tone that the generator does not give leaves it out. */
	async #taken(ask: Ask): Promise<Taken> {
		try {
			return await this.#worked(ask, ask.work);
		} catch (error) {
			if (error instanceof SweepLeft && error.end.kind === 'refused') return 'left out';
			throw error;
		}
	}

	async #worked(ask: Ask, work: AskWork): Promise<Taken> {
		const book = this.#book;
		const { middleHz } = testMarks(this.#facts);
		const reference = book.valueOf(sensitivityAsk(middleHz));
		if (work.kind === 'input at best') return this.#inputAtBest(ask, work.near);
		if (work.kind === 'oscillator') return this.#oscillator(ask);
		if (reference?.generatorHz === undefined) return 'left out';
		const { generatorHz } = reference;
		switch (work.kind) {
			case 'input off tune': {
				const middle = centreHz(book, middleHz);
				if (middle === null) return 'left out';
				return { value: await inputForOutput(this.#hand, middle + work.offHz, this.#wantedDb) };
			}
			case 'edge':
				return this.#edge(generatorHz, reference.value * work.ratio, work.side);
			case 'output at best': {
				if (!(await climb(this.#hand, generatorHz, reference.value * work.ratio))) return { value: null };
				return this.#toned(standardTone.toneHz, work.depth, () => this.#output(generatorHz));
			}
			case 'output at input':
				return this.#outputAtInput(generatorHz, work.inputV);
			case 'input for fall': {
				const strong = book.valueOf(avcAsk(strongInputV));
				if (!strong || this.#volume !== 'at standard') return 'left out';
				await this.#hand.setLevel(strongInputV / 10);
				const fallenDb = 20 * Math.log10(strong.value) - work.fallDb;
				return { value: await inputForOutput(this.#hand, generatorHz, fallenDb) };
			}
			case 'output at tone': {
				if (this.#volume !== 'at standard') return 'left out';
				if (!(await climb(this.#hand, generatorHz, audioInputV))) return { value: null };
				return this.#toned(work.toneHz, standardTone.depth, () => this.#output(generatorHz));
			}
			default:
				return 'left out';
		}
	}

	/** Reads with another tone or depth, and puts the standard tone back. */
	async #toned(toneHz: number, depth: number, read: () => Promise<Taken>): Promise<Taken> {
		if (toneHz === standardTone.toneHz && depth === standardTone.depth) return read();
		await this.#hand.modulate(toneHz, depth);
		try {
			return await read();
		} finally {
			await this.#hand.modulate(standardTone.toneHz, standardTone.depth);
		}
	}

	async #output(frequencyHz: number): Promise<Taken> {
		const { levelDb, uncertaintyDb } = await this.#hand.levelAt(frequencyHz, 'level');
		return { value: levelDb === null ? null : voltsOf(levelDb, uncertaintyDb) };
	}

	async #inputAtBest({ dialHz }: Ask, near: 'dial' | 'image' | 'IF'): Promise<Taken> {
		const { ifHz } = this.#facts;
		if (near !== 'dial' && ifHz === null) return 'left out';
		const side = testMarks(this.#facts).band.oscillator === 'below' ? -2 : 2;
		const tunedHz = this.#book.valueOf(sensitivityAsk(dialHz))?.generatorHz ?? dialHz;
		const nearHz = near === 'dial' ? dialHz : near === 'IF' ? (ifHz ?? 0) : tunedHz + side * (ifHz ?? 0);
		const middle = this.#book.valueOf(sensitivityAsk(testMarks(this.#facts).middleHz));
		if (near === 'dial') await this.#hand.reachesLevel(Math.min(this.#hand.levelV, middle?.value ?? firstInputV));
		const bestHz = await tuneForMost(this.#hand, nearHz, reachHz[near], this.#wantedDb);
		if (bestHz === null) return { value: null };
		return { value: await inputForOutput(this.#hand, bestHz.value, this.#wantedDb), generatorHz: bestHz.value };
	}

	/** What comes in at the mark, and the IF above or below it. Where nothing comes in it is left out: a weak set is not a silent oscillator. */
	async #oscillator({ dialHz }: Ask): Promise<Taken> {
		const { ifHz } = this.#facts;
		if (ifHz === null) return 'left out';
		const bestHz = await tuneForMost(this.#hand, dialHz, reachHz.dial, this.#wantedDb);
		if (bestHz === null) return 'left out';
		const side = testMarks(this.#facts).band.oscillator === 'below' ? -1 : 1;
		return { value: { value: bestHz.value + side * ifHz, uncertainty: bestHz.uncertainty } };
	}

	/** Comes in from far until the output is there, so that the outermost edge is found. */
	async #edge(aboutHz: number, inputV: number, side: -1 | 1): Promise<Taken> {
		const hand = this.#hand;
		let outsideHz = aboutHz + side * farthestEdgeHz;
		if (!(await climb(hand, outsideHz, inputV))) return { value: null };
		const reaches = async (frequencyHz: number): Promise<boolean> =>
			((await hand.levelAt(frequencyHz, 'level')).levelDb ?? Number.NEGATIVE_INFINITY) >= this.#wantedDb;
		if (await reaches(outsideHz)) return { value: null };
		let insideHz = outsideHz;
		do {
			outsideHz = insideHz;
			insideHz -= side * inwardHz;
			if (side * (insideHz - aboutHz) < -inwardHz) return { value: null };
		} while (!(await reaches(insideHz)));
		while (Math.abs(outsideHz - insideHz) > edgeWithinHz) {
			const middleHz = (outsideHz + insideHz) / 2;
			if (await reaches(middleHz)) insideHz = middleHz;
			else outsideHz = middleHz;
		}
		const withinHz = Math.abs(outsideHz - insideHz) / 2;
		return { value: { value: (outsideHz + insideHz) / 2, uncertainty: withinHz / Math.sqrt(3) } };
	}

	/** The strongest input is read first: there the volume is brought to the standard output, and then left. */
	async #outputAtInput(frequencyHz: number, inputV: number): Promise<Taken> {
		const hand = this.#hand;
		if (inputV === strongInputV) {
			if (!(await hand.reachesLevel(inputV))) return { value: null };
			const readV = async (): Promise<number | null> => {
				const { levelDb } = await hand.levelAt(frequencyHz, 'level');
				return levelDb === null ? null : 10 ** (levelDb / 20);
			};
			const isBrought = await this.#ground.hand.bringOutput(this.#book.standardV, readV);
			this.#volume = isBrought ? 'at standard' : false;
		}
		if (this.#volume !== 'at standard') return 'left out';
		if (!(await hand.reachesLevel(inputV))) return { value: null };
		return this.#output(frequencyHz);
	}
}

/**
 * Reads standard tests by itself with generator and meter: sensitivity by bracketing, edges, image and IF rejection, AVC, audio response.
 * Each reading is kept as the hand-made ones are; the gear of the moment has to be in the run.
 */
export function readTests(
	ground: WorkGround,
	bench: Bench,
	facts: SetFacts,
	gear: TestGear,
	tests: readonly TestName[],
): Promise<TestsRead | Left> {
	return seenThrough(ground, () => new TestTaker(ground, bench, facts, gear).readAll(tests));
}
