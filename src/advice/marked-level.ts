/** Levels as a generator is marked, corrected by what its attenuator and its leak were found to be. */
import { trueLevel } from '#core/estimate/attenuator-table.ts';
import { decibelsOf } from '#record/level-unit.ts';
import type { LevelReading } from '#record/reading.ts';
import { agoWords } from './generator-place.ts';
import { type DatedTrial, type MarkedTable, markedTable } from './marked-table.ts';

/** A generator whose attenuator or leak was measured. */
export interface MeasuredGenerator {
	/** Empty for one that was never named. */
	readonly name: string;
	readonly table: MarkedTable;
}

/** The generators of trials, in any order, whose attenuator or leak was measured. */
export function measuredGenerators(trials: readonly DatedTrial[]): readonly MeasuredGenerator[] {
	const names = [...new Set(trials.map(({ trial }) => trial.generator))];
	return names.flatMap((name) => {
		const table = markedTable(trials.filter(({ trial }) => trial.generator === name));
		return table && table.markedIn !== null ? [{ name, table }] : [];
	});
}

/** What is to be added to a marked level. */
export interface LevelCorrection {
	readonly shiftDb: number;
	/** Of this level against others of the same generator, one standard deviation. */
	readonly uncertaintyDb: number;
	readonly isNearLeak: boolean;
	readonly isBeyond: boolean;
}

/**
 * What a marked level is off by; `null` where nothing is known of its generator, or its marks count otherwise.
 * @param markedBy name of the generator; `undefined` where it was not kept
 * @param marked the level as it was read off the generator: decibels of one volt, or of the attenuator's own
 */
export function levelCorrection(
	generators: readonly MeasuredGenerator[],
	markedBy: string | undefined,
	marked: { readonly levelDb: number; readonly reference: LevelReading['reference'] },
): LevelCorrection | null {
	const table = generators.find(({ name }) => name === markedBy)?.table;
	const isVolts = marked.reference === 'dBV';
	if (!table || isVolts !== (table.markedIn === 'volts')) return null;
	const markedDb = isVolts ? decibelsOf(10 ** (marked.levelDb / 20)) : marked.levelDb;
	const { levelDb, isNearLeak, isBeyond } = trueLevel(table, markedDb);
	return { shiftDb: levelDb.value - markedDb, uncertaintyDb: levelDb.uncertainty ?? 0, isNearLeak, isBeyond };
}

/** A marked level in volts with its correction; as it is marked, and known exactly, where there is none. */
export function correctedV(
	generators: readonly MeasuredGenerator[],
	markedBy: string | undefined,
	markedV: number,
): { readonly levelV: number; readonly uncertaintyDb: number } {
	const levelDb = 20 * Math.log10(markedV);
	const correction = levelCorrection(generators, markedBy, { levelDb, reference: 'dBV' });
	return {
		levelV: markedV * 10 ** ((correction?.shiftDb ?? 0) / 20),
		uncertaintyDb: correction?.uncertaintyDb ?? 0,
	};
}

/** By which check levels are corrected and of what day, as a sentence. */
export function correctedWords({ name, table }: MeasuredGenerator, nowMs: number): string {
	const whose = name === '' ? 'the generator' : name;
	const what =
		table.places.length === 0
			? `The level counts as ${whose} is marked, with its leak added`
			: `The level is corrected by the attenuator table of ${whose}${table.leakDb ? ', its leak added' : ''}`;
	return `${what}: read ${agoWords(table.atMs, nowMs)}.`;
}
