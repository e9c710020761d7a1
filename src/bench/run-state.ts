import type { Estimate } from '#core/numeric/estimate.ts';
import type { LevelReading } from '#record/reading.ts';
import type { RunEntry } from '#record/run.ts';
import type { SetCard } from '#record/set-card.ts';
import { levelsInHand } from './journal.ts';

/** One kept level, with the entry that keeps it. */
export interface KeptLevel {
	readonly entry: string;
	readonly step: string;
	readonly adjuster: string | null;
	readonly reading: LevelReading;
	readonly isStruck: boolean;
	/** How often the generator's level had been changed when this was read: only levels of one number can be compared. */
	readonly setting: number;
}

/** One adjuster's turn, as the way home needs it. */
export interface Turn {
	readonly step: string;
	readonly pass: number;
	readonly adjuster: string;
	/** Eighths of a turn, clockwise positive; `null`: not counted. */
	readonly eighths: number | null;
	readonly beforeDb: Estimate | null;
	readonly afterDb: Estimate | null;
}

/** Where a run stands: nothing but the fold of its entries. */
export interface RunState {
	readonly run: string;
	readonly card: SetCard | null;
	readonly options: Readonly<Record<string, string>>;
	/** Moments whose gate was passed since the run was begun or taken up again. */
	readonly passedGates: readonly string[];
	readonly step: string | null;
	readonly pass: number;
	readonly doneSteps: readonly string[];
	readonly answers: Readonly<Record<string, string>>;
	/** The latest levels, oldest first, at most `levelsInHand`; the earlier ones stay in the journal. */
	readonly levels: readonly KeptLevel[];
	/** Changes of the generator's level so far. */
	readonly setting: number;
	readonly turns: readonly Turn[];
	readonly notes: readonly string[];
	readonly isEnded: boolean;
	/** Taken up again after a pause. */
	readonly isResumed: boolean;
	/** Order of the next entry. */
	readonly nextOrder: number;
}

/** A run before its first entry. */
export function noRun(run: string): RunState {
	return {
		run,
		card: null,
		options: {},
		passedGates: [],
		step: null,
		pass: 1,
		doneSteps: [],
		answers: {},
		levels: [],
		setting: 0,
		turns: [],
		notes: [],
		isEnded: false,
		isResumed: false,
		nextOrder: 0,
	};
}

/** The state after levels in a row; the latest stay in hand. */
function afterLevels(state: RunState, entries: readonly Pick<RunEntry, 'id' | 'order' | 'what'>[]): RunState {
	const levels = entries.slice(-levelsInHand).flatMap(({ id, what }): KeptLevel[] =>
		what.kind === 'level'
			? [
					{
						entry: id,
						step: what.step,
						adjuster: what.adjuster ?? null,
						reading: what.reading,
						isStruck: false,
						setting: state.setting,
					},
				]
			: [],
	);
	return {
		...state,
		levels: [...state.levels, ...levels].slice(-levelsInHand),
		nextOrder: entries.reduce((next, { order }) => Math.max(next, order + 1), state.nextOrder),
	};
}

/** The state after one more entry. */
export function after(state: RunState, { id, order, what }: RunEntry): RunState {
	const next = { ...state, nextOrder: Math.max(state.nextOrder, order + 1) };
	switch (what.kind) {
		case 'started':
			return { ...next, card: what.card, options: what.options };
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
			return afterLevels(state, [{ id, order, what }]);
		case 'generator level':
			return { ...next, setting: state.setting + 1 };
		case 'adjusted':
			return { ...next, turns: [...state.turns, what] };
		case 'note':
			return { ...next, notes: [...state.notes, what.text] };
		case 'struck':
			return {
				...next,
				levels: state.levels.map((level) => (level.entry === what.entry ? { ...level, isStruck: true } : level)),
			};
		case 'resumed':
			// After a pause the set may have been unplugged, moved or cooled: every gate stands closed again.
			return { ...next, passedGates: [], isEnded: false, isResumed: true };
		case 'ended':
			return { ...next, isEnded: true };
	}
}

/** Where a run stands after its entries, in their order. Levels in a row are taken at once, so that the time grows with the entries and not with their square. */
export function runState(run: string, entries: readonly RunEntry[]): RunState {
	let state = noRun(run);
	for (let at = 0; at < entries.length; ) {
		let end = at;
		while (entries[end]?.what.kind === 'level') end++;
		state = end > at ? afterLevels(state, entries.slice(at, end)) : after(state, entries[at] as RunEntry);
		at = Math.max(end, at + 1);
	}
	return state;
}

/** Levels of one adjuster in this step that can be compared with the latest: of its instrument, on its reference and at the generator's level as it is, struck ones left out, oldest first. */
export function levelsOf(state: RunState, step: string, adjuster: string | null): readonly KeptLevel[] {
	const own = state.levels.filter(
		(level) => !level.isStruck && level.step === step && level.adjuster === adjuster && level.setting === state.setting,
	);
	const latest = own.at(-1)?.reading;
	return own.filter(
		({ reading }) =>
			reading.instrument === latest?.instrument && reading.reference === latest.reference && reading.levelDb !== null,
	);
}
