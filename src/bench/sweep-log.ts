import type { LevelReading } from '#record/reading.ts';
import type { RunEntry } from '#record/run.ts';
import type { SweepRole } from '#record/sweep-reading.ts';

/** One kept point of a sweep, with the entry that keeps it. */
export interface KeptSweepPoint {
	readonly entry: string;
	readonly frequencyHz: number;
	readonly levelDb: number;
	readonly uncertaintyDb: number | null;
	/** What it was read with; `null` for a point of a file. */
	readonly instrument: string | null;
	/** What its decibels count from; levels of different references do not make one curve. */
	readonly reference: string;
	/** Which generator's marks told the level, by its name, and what they count from; `null` where a meter read it, or it was not kept. */
	readonly mark: { readonly by: string; readonly reference: LevelReading['reference'] } | null;
	readonly isStruck: boolean;
}

/** A sweep of the IF in a run. */
export interface RunSweep {
	/** The entry that began it. */
	readonly id: string;
	readonly role: SweepRole;
	readonly adjuster: string | null;
	/** How far a setting was meant to take the adjuster's circuit; `null` where nothing was set. */
	readonly aimedHz: number | null;
	/** Generator frequency of the setting's mark. */
	readonly markHz: number | null;
	/** What the person calls it; `null` where it has no name of its own. */
	readonly name: string | null;
	readonly begunAtMs: number;
	/** The file that its points came in, or the meter that swept them by itself; `null` where they were read one by one. */
	readonly file: { readonly name: string; readonly atMs: number } | null;
	readonly points: readonly KeptSweepPoint[];
}

/** The sweeps of a run after one more entry; entries of other kinds leave them as they are. */
export function afterSweepEntry(sweeps: readonly RunSweep[], { id, atMs, what }: RunEntry): readonly RunSweep[] {
	const withPoints = (sweep: string, points: readonly KeptSweepPoint[]): readonly RunSweep[] =>
		sweeps.map((own) => (own.id === sweep ? { ...own, points: [...own.points, ...points] } : own));
	switch (what.kind) {
		case 'sweep begun':
			return [
				...sweeps,
				{
					id,
					role: what.role,
					adjuster: what.adjuster ?? null,
					aimedHz: what.aimedHz ?? null,
					markHz: what.markHz ?? null,
					name: null,
					begunAtMs: atMs,
					file: null,
					points: [],
				},
			];
		case 'sweep named':
			return sweeps.map((own) => (own.id === what.sweep ? { ...own, name: what.name.trim() || null } : own));
		case 'sweep point': {
			const { levelDb, reference, instrument } = what.reading;
			if (levelDb === null) return sweeps;
			const isUpsideDown = what.isGeneratorLevel === true;
			return withPoints(what.sweep, [
				{
					entry: id,
					frequencyHz: what.frequencyHz,
					levelDb: isUpsideDown ? -levelDb.value : levelDb.value,
					uncertaintyDb: levelDb.uncertainty,
					instrument,
					reference: isUpsideDown ? `generator ${reference}` : reference,
					mark: isUpsideDown && what.markedBy !== undefined ? { by: what.markedBy, reference } : null,
					isStruck: false,
				},
			]);
		}
		case 'sweep file':
			return withPoints(
				what.sweep,
				what.points.map((point) => ({
					...point,
					entry: id,
					instrument: null,
					reference: 'file',
					mark: null,
					isStruck: false,
				})),
			).map((own) => (own.id === what.sweep ? { ...own, file: { name: what.file, atMs } } : own));
		case 'struck':
			return sweeps.map((own) => ({
				...own,
				points: own.points.map((point) => (point.entry === what.entry ? { ...point, isStruck: true } : point)),
			}));
		default:
			return sweeps;
	}
}

/** The points of a sweep that count, ascending in frequency. */
export function countingPoints({ points }: RunSweep): readonly KeptSweepPoint[] {
	return points.filter(({ isStruck }) => !isStruck).toSorted((one, other) => one.frequencyHz - other.frequencyHz);
}

/** What can be compared of the sweeps of a run: the latest base and all that was turned and read since. */
export function latestSeries(sweeps: readonly RunSweep[]): readonly RunSweep[] {
	return sweeps.slice(
		Math.max(
			0,
			sweeps.findLastIndex(({ role }) => role === 'base'),
		),
	);
}
