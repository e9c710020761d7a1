import type { Journal } from '#bench/journal.ts';
import { happening, type RunEntry } from '#record/run.ts';
import type { Store } from './store.ts';

/** One run as the list shows it. */
export interface RunSummary {
	readonly run: string;
	readonly set: string | null;
	readonly startedAtMs: number;
	readonly lastAtMs: number;
	readonly entries: number;
}

const atOnce = 100;

function setOf({ what }: RunEntry): string | null {
	return what.kind === 'started' ? (what.card.id ?? null) : null;
}

/** A journal that also lists its runs, and keeps entries inside a transaction that is open already. */
export interface SqliteJournal extends Journal {
	runs(set: string | null): Promise<readonly RunSummary[]>;
	/** Keeps entries within the caller's transaction; returns how many were new. */
	keep(entries: readonly RunEntry[]): Promise<number>;
}

/** The journal in SQLite. An entry is in a committed transaction before `append` returns. */
export function sqliteJournal({ database }: Pick<Store, 'database'>): SqliteJournal {
	const keep = async (entries: readonly RunEntry[]): Promise<number> => {
		let kept = 0n;
		for (let start = 0; start < entries.length; start += atOnce) {
			const { numInsertedOrUpdatedRows } = await database
				.insertInto('entry')
				.values(
					entries.slice(start, start + atOnce).map((entry) => ({
						id: entry.id,
						run: entry.run,
						place: entry.order,
						at_ms: entry.atMs,
						set_id: setOf(entry),
						what: JSON.stringify(entry.what),
					})),
				)
				.onConflict((conflict) => conflict.column('id').doNothing())
				.executeTakeFirstOrThrow();
			kept += numInsertedOrUpdatedRows ?? 0n;
		}
		return Number(kept);
	};
	return {
		keep,
		async append(entries) {
			await database.transaction().execute((transaction) => sqliteJournal({ database: transaction }).keep(entries));
		},
		async entries(run) {
			const rows = await database.selectFrom('entry').selectAll().where('run', '=', run).orderBy('place').execute();
			return rows.map((row) => ({
				id: row.id,
				run: row.run,
				order: row.place,
				atMs: row.at_ms,
				what: happening.parse(JSON.parse(row.what)),
			}));
		},
		async runs(set) {
			let query = database.selectFrom('entry as start').where('start.place', '=', 0);
			if (set !== null) query = query.where('start.set_id', '=', set);
			const rows = await query
				.select((select) => [
					'start.run as run',
					'start.set_id as set',
					'start.at_ms as startedAtMs',
					select
						.selectFrom('entry as last')
						.whereRef('last.run', '=', 'start.run')
						.select('last.at_ms')
						.orderBy('last.place', 'desc')
						.limit(1)
						.as('lastAtMs'),
					select
						.selectFrom('entry as all')
						.whereRef('all.run', '=', 'start.run')
						.select((count) => count.fn.countAll<number>().as('entries'))
						.as('entries'),
				])
				.orderBy('start.at_ms', 'desc')
				.execute();
			return rows.map((row) => ({ ...row, lastAtMs: row.lastAtMs ?? row.startedAtMs, entries: row.entries ?? 0 }));
		},
	};
}
