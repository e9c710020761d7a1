import { type AttenuatorTable, attenuatorTable } from '#core/estimate/attenuator-table.ts';
import type { Estimate } from '#core/numeric/estimate.ts';
import type { GeneratorTrial } from '#record/generator-trial.ts';
import { decibelsOf } from '#record/level-unit.ts';

/** One trial, and when it was made, milliseconds since 1970. */
export interface DatedTrial {
	readonly atMs: number;
	readonly trial: GeneratorTrial;
}

/** What the marks of one generator's attenuator are worth. */
export interface MarkedTable extends AttenuatorTable {
	/** What its marks are; `null` in older runs, where it corrects no level. */
	readonly markedIn: 'volts' | 'decibels' | null;
	readonly atMs: number;
}

/** Trials of a sitting belong together: an attenuator that was read longer ago than this is read anew (chosen). */
const sittingMs = 12 * 3_600_000;

type Read<About extends GeneratorTrial['read']['about']> = Extract<GeneratorTrial['read'], { about: About }>;

/** What trials read of one thing, in their order. */
export function readsOf<About extends GeneratorTrial['read']['about']>(
	trials: readonly DatedTrial[],
	about: About,
): readonly { readonly atMs: number; readonly read: Read<About> }[] {
	return trials.flatMap(({ atMs, trial: { read } }) =>
		read.about === about ? [{ atMs, read: read as Read<About> }] : [],
	);
}

/** How far a known level read above the leak. */
function aboveDb({ readDb, offDb }: Read<'leakage'>): Estimate {
	return { value: readDb.value - offDb.value, uncertainty: Math.hypot(readDb.uncertainty, offDb.uncertainty) };
}

/** Trials, oldest first. */
export const inTime = (trials: readonly DatedTrial[]): readonly DatedTrial[] =>
	trials.toSorted((one, other) => one.atMs - other.atMs);

/**
 * The attenuator's places of the last sitting, those that are marked as the last one is, and the leak below them; `null` before either was read.
 * @param trials of one generator, in any order
 */
export function markedTable(trials: readonly DatedTrial[]): MarkedTable | null {
	const dated = inTime(trials);
	const places = readsOf(dated, 'attenuator');
	const leak = readsOf(dated, 'leakage').at(-1);
	const last = places.at(-1);
	if (!last && !leak) return null;
	const markedIn = last ? (last.read.markedIn ?? null) : 'volts';
	const marks = new Map(
		places
			.filter(({ atMs, read }) => (last?.atMs ?? 0) - atMs < sittingMs && (read.markedIn ?? null) === markedIn)
			.map(({ read }) => [read.markedDb, read.readDb]),
	);
	const readings = [...marks].map(([markedDb, { value, uncertainty }]) => ({
		markedDb,
		readDb: value,
		uncertaintyDb: uncertainty,
	}));
	// The leak was told by a level in volts.
	const below = leak && markedIn === 'volts' ? leak.read : null;
	return {
		...attenuatorTable(
			readings.length < 2 ? [] : readings,
			below && { knownDb: decibelsOf(below.knownV), aboveDb: aboveDb(below) },
		),
		markedIn,
		atMs: last?.atMs ?? leak?.atMs ?? 0,
	};
}
