import type { Gate, GateVerdict } from '#advice/caution.ts';
import type { Disturbance } from '#advice/coach/disturbance.ts';
import type { LevelStep } from '#advice/coach/level-step.ts';
import { judgeGate } from '#advice/gates.ts';
import type { SheetStep } from '#advice/sheet-step.ts';
import type { Estimate } from '#core/numeric/estimate.ts';
import type { AvcLawBegun, AvcLawEnded, AvcStep } from '#record/avc-steps.ts';
import type { DialActDone, DialGear, DialReading, GeneratorCheck } from '#record/dial-reading.ts';
import type { GeneratorTrial } from '#record/generator-trial.ts';
import type { HeardSound } from '#record/heard.ts';
import type { LevelReading } from '#record/reading.ts';
import type { Happening, PracticeCase, RunEntry } from '#record/run.ts';
import type { SetCard } from '#record/set-card.ts';
import type { SweepPoint } from '#record/sweep.ts';
import type { SweepRole } from '#record/sweep-reading.ts';
import type { SweptReading } from '#record/swept-reading.ts';
import type { TestGear, TestReading } from '#record/test-reading.ts';
import type { Journal } from './journal.ts';
import type { LevelCheck, LevelPurpose } from './kept-level.ts';
import type { InputScale, LawCheck } from './level-scale.ts';
import { after, noRun, type RunState, runState } from './run-state.ts';
import { turnCameTo } from './turn-gain.ts';

/** What a bench needs from outside. */
export interface BenchGround {
	readonly run: string;
	readonly journal: Journal;
	readonly nowMs: () => number;
	readonly newId: () => string;
}

type Happened = Pick<RunEntry, 'what' | 'atMs'>;

/**
 * The work in time: keeps every happening in the journal first, and only then lets it count.
 * A happening that could not be kept leaves the state as it was, and the call fails with the journal's own words.
 */
export class Bench {
	readonly #ground: BenchGround;
	#state: RunState;
	/** What is under way: one piece of work at a time, in the order they came. */
	#last: Promise<unknown> = Promise.resolve();
	/** What came while the journal was busy and goes to it in one piece, so that a slow disk never lags behind the meter. */
	#gathering: { readonly happenings: Happened[]; readonly kept: Promise<RunState> } | null = null;
	#isClosed = false;

	private constructor(ground: BenchGround, state: RunState) {
		this.#ground = ground;
		this.#state = state;
	}

	/** A new run on a set. */
	static async begin(
		ground: BenchGround,
		card: SetCard,
		options: Readonly<Record<string, string>>,
		gear: { readonly meter: string; readonly generator: string } = { meter: 'typed', generator: 'typed' },
		practice: PracticeCase | null = null,
	): Promise<Bench> {
		const bench = new Bench(ground, noRun(ground.run));
		const begun = { kind: 'started' as const, card, options: { ...options }, ...gear };
		await bench.#keep(practice ? { ...begun, practice } : begun);
		return bench;
	}

	/** A run opened as it stands, its work not taken up. */
	static async beside(ground: BenchGround): Promise<Bench> {
		return new Bench(ground, runState(ground.run, await ground.journal.standing(ground.run)));
	}

	/** Takes the work of an opened run up again; every gate stands closed. */
	takeUp(): Promise<RunState> {
		return this.#keep({ kind: 'resumed' });
	}

	get state(): RunState {
		return this.#state;
	}

	/** Takes in what another writer, such as the host's instruments, has put into the run meanwhile. */
	reread(): Promise<RunState> {
		const read = this.#last.then(async () => {
			const { run, journal } = this.#ground;
			this.#state = runState(run, await journal.standing(run));
			return this.#state;
		});
		this.#last = read.catch(() => undefined);
		return read;
	}

	/** Takes nothing more, since another writer has the run now; fulfilled when what was under way is kept. */
	async close(): Promise<void> {
		this.#isClosed = true;
		await this.#last;
	}

	#keep(what: Happening): Promise<RunState> {
		if (this.#isClosed) return Promise.reject(new Error('this run is worked elsewhere now'));
		const happened = { what, atMs: this.#ground.nowMs() };
		if (this.#gathering) {
			this.#gathering.happenings.push(happened);
			return this.#gathering.kept;
		}
		const happenings = [happened];
		const kept = this.#last.then(() => {
			this.#gathering = null;
			return this.#append(happenings);
		});
		this.#gathering = { happenings, kept };
		this.#last = kept.catch(() => undefined);
		return kept;
	}

	async #append(happenings: readonly Happened[]): Promise<RunState> {
		const { run, journal, newId } = this.#ground;
		const first = this.#state.nextOrder;
		const entries = happenings.map((happened, k): RunEntry => ({ id: newId(), run, order: first + k, ...happened }));
		await journal.append(entries);
		this.#state = entries.reduce((state, entry) => after(state, entry), this.#state);
		return this.#state;
	}

	/** Opens a gate when its answers allow it. */
	async passGate(gate: Gate, answers: Readonly<Record<string, string>>): Promise<GateVerdict> {
		const verdict = judgeGate(gate, answers);
		if (verdict.kind === 'open') await this.#keep({ kind: 'gate passed', gate: gate.id, answers: { ...answers } });
		return verdict;
	}

	/** Begins a step, or a further pass of it. */
	beginStep({ id }: SheetStep): Promise<RunState> {
		const pass = this.#state.doneSteps.filter((done) => done === id).length + 1;
		return this.#keep({ kind: 'step begun', step: id, pass });
	}

	/** Ends a step with the answers to its questions. */
	finishStep({ id }: SheetStep, answers: Readonly<Record<string, string>>): Promise<RunState> {
		return this.#keep({ kind: 'step done', step: id, pass: this.#state.pass, answers: { ...answers } });
	}

	/** Keeps a level that was read while this adjuster was in hand, and what it was read for. */
	keepLevel(
		step: SheetStep,
		adjuster: string | null,
		reading: LevelReading,
		what: { readonly purpose: LevelPurpose; readonly check?: LevelCheck } = { purpose: 'live' },
	): Promise<RunState> {
		return this.#keep({ kind: 'level', step: step.id, ...(adjuster === null ? {} : { adjuster }), ...what, reading });
	}

	/** Keeps that the generator's level was changed; levels are compared anew from here. `null`: to what is not known. */
	changeLevel(step: SheetStep, levelV: number | null): Promise<RunState> {
		return this.#keep({ kind: 'generator level', step: step.id, ...(levelV === null ? {} : { levelV }) });
	}

	/** Keeps what the hand does to the level, as a check has measured it. */
	keepHand(
		step: SheetStep,
		adjuster: string,
		{ stepDb, flutterDb, at }: Disturbance & { readonly at?: 'input' | 'output' },
	): Promise<RunState> {
		const hand = { kind: 'hand measured' as const, step: step.id, adjuster, stepDb, flutterDb };
		return this.#keep(at === 'input' ? { ...hand, at } : hand);
	}

	/** Keeps what a step of 6 dB at the generator read, and what an AVC law makes of it. */
	keepLevelStep(step: SheetStep, { kind, stepDb }: LevelStep, byLaw: (LawCheck & { law: string }) | null = null) {
		const read = { kind: '6 dB step' as const, step: step.id, stepDb, verdict: kind };
		return this.#keep(byLaw ? { ...read, byLaw } : read);
	}

	/** Keeps a step of the set's AVC law, its begin or its end. */
	keepAvc(what: AvcLawBegun | AvcStep | AvcLawEnded): Promise<RunState> {
		return this.#keep(what);
	}

	/** Keeps that no further pass is wanted of what a step asks to be repeated. */
	leaveRepeat(step: string): Promise<RunState> {
		return this.#keep({ kind: 'repeat left', step });
	}

	/** Keeps how the last reading before a pause came out once more; unless it is as it was left, levels are compared anew. */
	reproduce(verdict: 'as left' | 'differs' | 'not read', differenceDb: Estimate | null): Promise<RunState> {
		return this.#keep({ kind: 'reproduced', verdict, differenceDb });
	}

	/**
	 * Counts the turn of an adjuster, clockwise positive, `null` when it was not counted; the levels before and after come from what was read.
	 * @param scale in which the gain is counted, where it reaches all that was read
	 */
	countTurn(
		step: SheetStep,
		adjuster: string,
		eighths: number | null,
		ended: 'free' | 'at its stop' = 'free',
		scale: InputScale | null = null,
	): Promise<RunState> {
		return this.#keep({
			kind: 'adjusted',
			step: step.id,
			pass: this.#state.pass,
			adjuster,
			eighths,
			...(ended === 'free' ? {} : { atStop: true as const }),
			...turnCameTo(this.#state, step, adjuster, scale),
		});
	}

	/** Begins a sweep of the IF; after a nudge the adjuster that was turned is named. */
	beginSweep(role: SweepRole, adjuster: string | null): Promise<RunState> {
		return this.#keep({ kind: 'sweep begun', role, ...(adjuster === null ? {} : { adjuster }) });
	}

	/**
	 * Begins what is read after an adjuster was set to its mark.
	 * @param aimedHz how far its circuit was meant to go
	 * @param markHz where the generator stood
	 */
	beginSetting(adjuster: string, aimedHz: number, markHz: number): Promise<RunState> {
		return this.#keep({ kind: 'sweep begun', role: 'setting', adjuster, aimedHz, markHz });
	}

	/** Gives a sweep a name; an empty one takes it back. */
	nameSweep(sweep: string, name: string): Promise<RunState> {
		return this.#keep({ kind: 'sweep named', sweep, name });
	}

	/** Keeps one point of a sweep: what the meter showed. */
	keepSweepPoint(sweep: string, frequencyHz: number, reading: LevelReading): Promise<RunState> {
		return this.#keep({ kind: 'sweep point', sweep, frequencyHz, reading });
	}

	/**
	 * Keeps one point of a sweep: the generator's level for one and the same reading of the meter.
	 * @param markedBy name of the generator whose marks told it; `null` for one that gives what it is set to
	 */
	keepGeneratorLevel(
		sweep: string,
		frequencyHz: number,
		reading: LevelReading,
		markedBy: string | null,
	): Promise<RunState> {
		const by = markedBy === null ? {} : { markedBy };
		return this.#keep({ kind: 'sweep point', sweep, frequencyHz, reading, isGeneratorLevel: true, ...by });
	}

	/** Keeps the points of a file as a sweep. */
	keepSweepFile(sweep: string, file: string, points: readonly SweepPoint[]): Promise<RunState> {
		return this.#keep({ kind: 'sweep file', sweep, file, points: points.map((point) => ({ ...point })) });
	}

	/** Strikes a level or a point of a sweep: it stays in the journal and counts no more. */
	strike(entry: string, why: string): Promise<RunState> {
		return this.#keep({ kind: 'struck', entry, why });
	}

	/** Keeps with what the standard tests of one moment are read. */
	keepTestGear(gear: TestGear): Promise<RunState> {
		return this.#keep(gear);
	}

	/** Keeps one raw reading of a standard test. */
	keepTestReading(reading: TestReading): Promise<RunState> {
		return this.#keep(reading);
	}

	/** Keeps one reading of a sweep that runs by itself. */
	keepSweptReading(reading: SweptReading): Promise<RunState> {
		return this.#keep(reading);
	}

	/** Keeps what a test of a trouble came to; `words`: as typed. */
	keepAnswer(trouble: string, test: string, outcome: string, words: string | null): Promise<RunState> {
		return this.#keep({ kind: 'test answered', trouble, test, outcome, ...(words === null ? {} : { words }) });
	}

	/** Keeps what the set gave out by itself while it was listened to. */
	keepHeard(heard: HeardSound): Promise<RunState> {
		return this.#keep(heard);
	}

	/** Keeps a reading of the dial, how it is read, an act that was done, or a check of the generator. */
	keepDial(what: DialReading | DialGear | DialActDone | GeneratorCheck | GeneratorTrial): Promise<RunState> {
		return this.#keep(what);
	}

	note(text: string): Promise<RunState> {
		return this.#keep({ kind: 'note', text });
	}

	end(how: 'done' | 'left'): Promise<RunState> {
		return this.#keep({ kind: 'ended', how });
	}
}
