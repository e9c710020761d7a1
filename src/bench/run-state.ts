import type { Disturbance } from '#advice/coach/disturbance.ts';
import type { Estimate } from '#core/numeric/estimate.ts';
import type { Happening, PracticeCase, RunEntry } from '#record/run.ts';
import type { SetCard } from '#record/set-card.ts';
import type { TestGear, TestReading } from '#record/test-reading.ts';
import { type AvcWork, afterAvc, noAvcWork } from './avc-laws.ts';
import { afterDial, afterTurn, type DialWork, noDialWork, withoutReading } from './dial-work.ts';
import { allInHand, type KeptLevel, type LevelHappening, latest } from './kept-level.ts';
import { afterSweepEntry, type RunSweep } from './sweep-log.ts';

/** One adjuster's turn, as the way home needs it. */
export interface Turn {
	readonly step: string;
	readonly pass: number;
	readonly adjuster: string;
	/** Eighths of a turn, clockwise positive; `null`: not counted. */
	readonly eighths: number | null;
	readonly beforeDb: Estimate | null;
	readonly afterDb: Estimate | null;
	/** What the turn gained, changes of the generator's level left out; `null` where nothing tells. */
	readonly gainDb: Estimate | null;
	/** The gain is of the input, by the set's AVC law; absent: of the reading. */
	readonly gainAt?: 'input' | undefined;
	/** Steps done before it. */
	readonly doneBefore: number;
}

/** What a hand did to the level of one adjuster without turning it. */
export interface MeasuredHand extends Disturbance {
	readonly step: string;
	readonly adjuster: string;
	/** Absent: of the reading. */
	readonly at?: 'input' | undefined;
}

/** A reading of a standard test, with the entry that keeps it. */
export type KeptTestReading = TestReading & { readonly entry: string };

/** Where a run stands: nothing but the fold of its entries. */
export interface RunState {
	readonly run: string;
	readonly card: SetCard | null;
	readonly options: Readonly<Record<string, string>>;
	/** `null` for work on a real set, or on a virtual one as it is. */
	readonly practice: PracticeCase | null;
	/** Moments whose gate was passed since the run was begun or taken up again. */
	readonly passedGates: readonly string[];
	readonly step: string | null;
	readonly pass: number;
	readonly doneSteps: readonly string[];
	/** Steps whose repeats are left off. */
	readonly leftRepeats: readonly string[];
	readonly answers: Readonly<Record<string, string>>;
	/** The latest levels, oldest first, as many as `levelsInHand` says; the earlier ones stay in the journal. */
	readonly levels: readonly KeptLevel[];
	/** Changes of the generator's level so far. */
	readonly setting: number;
	/** The generator's level as it stands, open-circuit volts; `null` where it is not known. */
	readonly levelV: number | null;
	readonly turns: readonly Turn[];
	readonly hands: readonly MeasuredHand[];
	/** Sweeps of the IF, oldest first. */
	readonly sweeps: readonly RunSweep[];
	readonly notes: readonly string[];
	/** With what the standard tests were read, and every reading of theirs that was not struck. */
	readonly testGear: readonly TestGear[];
	readonly testReadings: readonly KeptTestReading[];
	/** Readings of the dial and the acts that followed. */
	readonly dial: DialWork;
	/** AVC laws that were taken in this run, and which of the set's hold in it. */
	readonly avc: AvcWork;
	readonly isEnded: boolean;
	/** Taken up again after a pause. */
	readonly isResumed: boolean;
	/** The last reading has to be taken once more before the work goes on. */
	readonly mustReproduce: boolean;
	/** Pauses so far. */
	readonly session: number;
	/** Order of the next entry. */
	readonly nextOrder: number;
}

/** A run before its first entry. */
export function noRun(run: string): RunState {
	return {
		run,
		card: null,
		options: {},
		practice: null,
		passedGates: [],
		step: null,
		pass: 1,
		doneSteps: [],
		leftRepeats: [],
		answers: {},
		levels: [],
		setting: 0,
		levelV: null,
		turns: [],
		hands: [],
		sweeps: [],
		notes: [],
		testGear: [],
		testReadings: [],
		dial: noDialWork,
		avc: noAvcWork,
		isEnded: false,
		isResumed: false,
		mustReproduce: false,
		session: 0,
		nextOrder: 0,
	};
}

/** A level as it stands in a run that has come so far. */
function keptLevel({ setting, turns, session }: RunState, entry: string, what: LevelHappening): KeptLevel {
	const { step, adjuster = null, purpose, check = null, reading } = what;
	return { entry, step, adjuster, purpose, check, reading, isStruck: false, setting, hand: turns.length, session };
}

function keptTurn({ doneSteps }: RunState, what: Extract<Happening, { kind: 'adjusted' }>): Turn {
	return { ...what, gainDb: what.gainDb ?? null, doneBefore: doneSteps.length };
}

/**
 * The state after one more entry.
 * @param isPart levels that were kept before it are not in hand
 */
export function after(state: RunState, entry: RunEntry, isPart = false): RunState {
	const { id, order, atMs, what } = entry;
	const next = { ...state, nextOrder: Math.max(state.nextOrder, order + 1), avc: afterAvc(state.avc, entry) };
	switch (what.kind) {
		case 'started':
			return { ...next, card: what.card, options: what.options, practice: what.practice ?? null };
		case 'gate passed':
			return { ...next, passedGates: [...state.passedGates, what.gate] };
		case 'step begun':
			return { ...next, step: what.step, pass: what.pass };
		case 'step done':
			return {
				...next,
				doneSteps: [...state.doneSteps, what.step],
				answers: { ...state.answers, ...what.answers },
				step: null,
			};
		case 'level':
			return { ...next, levels: latest([...state.levels, keptLevel(state, id, what)], state.turns.length) };
		case 'generator level':
			return { ...next, setting: state.setting + 1, levelV: what.levelV ?? null };
		case 'adjusted': {
			const turns = [...state.turns, keptTurn(state, what)];
			return {
				...next,
				turns,
				levels: latest(state.levels, turns.length),
				dial: afterTurn(state.dial, state.card, what),
			};
		}
		case 'hand measured':
			return { ...next, hands: [...state.hands, what] };
		case 'swept reading':
		case '6 dB step':
		case 'AVC law begun':
		case 'AVC step':
		case 'AVC law ended':
		case 'test answered':
		case 'heard':
			return next;
		case 'sweep begun':
		case 'sweep point':
		case 'sweep file':
		case 'sweep named':
			return { ...next, sweeps: afterSweepEntry(state.sweeps, entry) };
		case 'repeat left':
			return { ...next, leftRepeats: [...state.leftRepeats, what.step] };
		case 'reproduced':
			return {
				...next,
				mustReproduce: false,
				setting: state.setting + (what.verdict === 'as left' ? 0 : 1),
			};
		case 'test gear':
			return { ...next, testGear: [...state.testGear, what] };
		case 'test reading':
			return { ...next, testReadings: [...state.testReadings, { ...what, entry: id }] };
		case 'dial reading':
		case 'dial gear':
		case 'dial act':
		case 'generator check':
		case 'generator trial':
			return { ...next, dial: afterDial(state.dial, { id, atMs }, what) };
		case 'note':
			return { ...next, notes: [...state.notes, what.text] };
		case 'struck':
			return {
				...next,
				testReadings: state.testReadings.filter(({ entry }) => entry !== what.entry),
				sweeps: afterSweepEntry(state.sweeps, entry),
				levels: state.levels.map((level) => (level.entry === what.entry ? { ...level, isStruck: true } : level)),
				dial: withoutReading(state.dial, what.entry),
			};
		case 'resumed': {
			const wasRead = isPart || state.levels.some(({ isStruck }) => !isStruck);
			// After a pause the set may have been unplugged, moved or cooled: every gate stands closed again.
			return {
				...next,
				passedGates: [],
				isEnded: false,
				isResumed: true,
				session: state.session + 1,
				mustReproduce: wasRead,
				// Without a reading to take once more nothing says that set and volume are as they were.
				avc: wasRead ? state.avc : { ...state.avc, held: [] },
			};
		}
		case 'ended':
			return { ...next, isEnded: true };
	}
}

/** Where a run stands after its entries, in their order. What comes by the thousand is gathered aside, so that the time grows with the entries and not with their square. */
export function runState(run: string, entries: readonly RunEntry[]): RunState {
	let levels: KeptLevel[] = [];
	const turns: Turn[] = [];
	let nextOrder = 0;
	// Orders run without a gap: where one is missing, levels stayed in the journal.
	let isPart = false;
	let state: RunState = { ...noRun(run), levels, turns };
	for (const entry of entries) {
		const { id, order, what } = entry;
		isPart ||= order > nextOrder;
		nextOrder = Math.max(nextOrder, order + 1);
		if (what.kind === 'level') levels.push(keptLevel(state, id, what));
		else if (what.kind === 'adjusted') {
			turns.push(keptTurn(state, what));
			const dial = afterTurn(state.dial, state.card, what);
			if (dial !== state.dial) state = { ...state, dial };
		} else state = after(state, entry, isPart);
		const isLong = levels.length > 2 * allInHand;
		if (state.levels === levels && !isLong) continue;
		levels = [...(isLong ? latest(levels, turns.length) : state.levels)];
		state = { ...state, levels };
	}
	return { ...state, levels: latest(levels, turns.length), nextOrder };
}

/**
 * Levels of one adjuster read since the last counted turn that can be compared with the latest:
 * of its instrument, on its reference and at the generator's level as it is; struck ones and those of checks left out, oldest first.
 */
export function levelsOf(state: RunState, step: string, adjuster: string | null): readonly KeptLevel[] {
	const own = inHand(state, step, adjuster).filter(
		({ purpose, setting }) => purpose !== 'check' && setting === state.setting,
	);
	return comparable(own);
}

/** Levels of one adjuster since the last counted turn at every level of the generator, those of checks too. */
export function inHand(state: RunState, step: string, adjuster: string | null): readonly KeptLevel[] {
	const hand = state.turns.length;
	const first = state.levels.findLastIndex((level) => level.hand !== hand) + 1;
	return state.levels
		.slice(first)
		.filter((level) => !level.isStruck && level.step === step && level.adjuster === adjuster);
}

/** Those of the levels that are of the latest's instrument and on its reference, and have a level. */
export function comparable(levels: readonly KeptLevel[]): readonly KeptLevel[] {
	const latest = levels.at(-1)?.reading;
	return levels.filter(
		({ reading }) =>
			reading.instrument === latest?.instrument && reading.reference === latest.reference && reading.levelDb !== null,
	);
}
