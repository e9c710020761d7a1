import { type AttenuatorTable, attenuatorTable } from '#core/estimate/attenuator-table.ts';
import { type Leakage, leakage } from '#core/estimate/generator-level.ts';
import { type WarmUp, warmUp } from '#core/estimate/warm-up.ts';
import type { Estimate } from '#core/numeric/estimate.ts';
import type { GeneratorTrial } from '#record/generator-trial.ts';
import { decibelsOf } from '#record/level-unit.ts';

/** One trial, and when it was made, milliseconds since 1970. */
export interface DatedTrial {
	readonly atMs: number;
	readonly trial: GeneratorTrial;
}

/** A generator may drift by so much in so long and is called ready (chosen: a tenth of what a width of an IF curve is read to, over one sweep by hand). */
export const readyWhen = { driftHz: 100, windowS: 600 } as const;

/** What the marks of one generator's attenuator are worth. */
export interface MarkedTable extends AttenuatorTable {
	/** What its marks are; `null` in older runs, where it corrects no level. */
	readonly markedIn: 'volts' | 'decibels' | null;
	readonly atMs: number;
}

/** What trials say of one generator, the latest of each kind. */
export interface GeneratorWorth {
	/** `null` before anything was read of its attenuator or its leak; without places before there are two. */
	readonly table: MarkedTable | null;
	readonly leak: (Leakage & { readonly atMs: number }) | null;
	/** Modulation depth, 0 to 1, and what it was marked with; `null` where that was not said. */
	readonly depth: (Estimate & { readonly marked: number | null; readonly atMs: number }) | null;
	/** The latest warm-up, with its readings in seconds since it was switched on; `null` before there is one. */
	readonly warmUp: (WarmUp & { readonly readings: readonly { atS: number; frequencyHz: number }[] }) | null;
}

/** Trials of a sitting belong together: an attenuator that was read longer ago than this is read anew (chosen). */
const sittingMs = 12 * 3_600_000;

type Read<About extends GeneratorTrial['read']['about']> = Extract<GeneratorTrial['read'], { about: About }>;

function readsOf<About extends GeneratorTrial['read']['about']>(
	trials: readonly DatedTrial[],
	about: About,
): readonly { readonly atMs: number; readonly read: Read<About> }[] {
	return trials.flatMap(({ atMs, trial: { read } }) =>
		read.about === about ? [{ atMs, read: read as Read<About> }] : [],
	);
}

/** The attenuator's places of the last sitting, those that are marked as the last one is, and the leak below them. */
function tableOf(
	places: readonly { readonly atMs: number; readonly read: Read<'attenuator'> }[],
	leak: { readonly atMs: number; readonly read: Read<'leakage'> } | undefined,
): MarkedTable | null {
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

/** How far a known level read above the leak. */
function aboveDb({ readDb, offDb }: Read<'leakage'>): Estimate {
	return { value: readDb.value - offDb.value, uncertainty: Math.hypot(readDb.uncertainty, offDb.uncertainty) };
}

/**
 * What a generator is worth, from its trials in any order.
 * @param limit most drift, and in how long, of a generator that is called ready
 */
export function generatorWorth(
	trials: readonly DatedTrial[],
	limit: { readonly driftHz: number; readonly windowS: number } = readyWhen,
): GeneratorWorth {
	const dated = trials.toSorted((one, other) => one.atMs - other.atMs);
	const leak = readsOf(dated, 'leakage').at(-1);
	const depth = readsOf(dated, 'modulation').at(-1);
	const warm = readsOf(dated, 'warm-up');
	const onSinceMs = warm.at(-1)?.read.onSinceMs;
	const heard = warm
		.filter(({ read }) => read.onSinceMs === onSinceMs)
		.map(({ atMs, read }) => ({ atS: (atMs - read.onSinceMs) / 1e3, frequencyHz: read.frequencyHz }));
	return {
		table: tableOf(readsOf(dated, 'attenuator'), leak),
		leak: leak ? { ...leakage(leak.read.knownV, leak.read.readDb, leak.read.offDb), atMs: leak.atMs } : null,
		depth: depth
			? {
					value: depth.read.depth,
					uncertainty: depth.read.uncertainty ?? null,
					marked: depth.read.marked ?? null,
					atMs: depth.atMs,
				}
			: null,
		warmUp: heard.length === 0 ? null : { ...warmUp(heard, limit.driftHz, limit.windowS), readings: heard },
	};
}
