import { sql } from 'kysely';
import { type Journal, levelsInHand } from '#bench/journal.ts';
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

/** A journal that also lists its runs, gives their entries in pages, and keeps entries inside a transaction that is open already. */
export interface SqliteJournal extends Journal {
	runs(set: string | null): Promise<readonly RunSummary[]>;
	/** Entries of a run from a place on, in order, at most so many. */
	entries(run: string, from: number, most: number): Promise<readonly RunEntry[]>;
	/**
	 * Keeps entries of pages: those kept before are passed over, and one whose place another writer took meanwhile goes behind the run's last, so that each writer's order stays.
	 * Returns how many had to go there.
	 */
	receive(entries: readonly RunEntry[]): Promise<number>;
	/** Keeps entries at their own places within the caller's transaction; returns how many were new. */
	keep(entries: readonly RunEntry[]): Promise<number>;
}

function setOf({ what }: RunEntry): string | null {
	return what.kind === 'started' ? (what.card.id ?? null) : null;
}

/** The kind of an entry, that of a level with its purpose. */
function kindOf({ what }: RunEntry): string {
	return what.kind === 'level' ? `level: ${what.purpose}` : what.kind;
}

type Database = Pick<Store, 'database'>['database'];

async function kept(database: Database, entries: readonly RunEntry[]): Promise<number> {
	let count = 0n;
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
					kind: kindOf(entry),
					what: JSON.stringify(entry.what),
				})),
			)
			.onConflict((conflict) => conflict.column('id').doNothing())
			.executeTakeFirstOrThrow();
		count += numInsertedOrUpdatedRows ?? 0n;
	}
	return Number(count);
}

/** The entries that are not kept yet, each behind the last of its run; and how many found their place taken. */
async function placed(database: Database, entries: readonly RunEntry[]): Promise<{ fresh: RunEntry[]; moved: number }> {
	const ids = entries.map(({ id }) => id);
	const known = await database.selectFrom('entry').select('id').where('id', 'in', ids).execute();
	const here = new Set(known.map(({ id }) => id));
	const last = new Map<string, number>();
	for (const run of new Set(entries.map(({ run }) => run))) {
		const { place } = await database
			.selectFrom('entry')
			.where('run', '=', run)
			.select((most) => most.fn.max('place').as('place'))
			.executeTakeFirstOrThrow();
		last.set(run, place ?? -1);
	}
	let moved = 0;
	const fresh = entries
		.filter(({ id }) => !here.has(id))
		.map((entry) => {
			const order = Math.max(entry.order, (last.get(entry.run) ?? -1) + 1);
			last.set(entry.run, order);
			if (order !== entry.order) moved++;
			return { ...entry, order };
		});
	return { fresh, moved };
}

type Row = { id: string; run: string; place: number; at_ms: number; what: string };

const entryOf = (row: Row): RunEntry => ({
	id: row.id,
	run: row.run,
	order: row.place,
	atMs: row.at_ms,
	what: happening.parse(JSON.parse(row.what)),
});

/** The journal in SQLite. An entry is in a committed transaction before `append` returns. */
export function sqliteJournal({ database }: Pick<Store, 'database'>): SqliteJournal {
	const receive = (entries: readonly RunEntry[]): Promise<number> =>
		database.transaction().execute(async (transaction) => {
			const { fresh, moved } = await placed(transaction, entries);
			await kept(transaction, fresh);
			return moved;
		});
	const ofRun = (run: string) => database.selectFrom('entry').selectAll().where('run', '=', run);
	return {
		receive,
		keep: (entries) => kept(database, entries),
		async append(entries) {
			await receive(entries);
		},
		async entries(run, from, most) {
			return (await ofRun(run).where('place', '>=', from).orderBy('place').limit(most).execute()).map(entryOf);
		},
		async standing(run) {
			const turning = await ofRun(run)
				.where('kind', '=', 'level: live')
				.orderBy('place', 'desc')
				.limit(levelsInHand.turning)
				.execute();
			// Written out as in the index of all but these, so that it serves.
			const rest = ofRun(run).where(sql<boolean>`kind <> 'level: live'`);
			const resting = await rest
				.where('kind', 'like', 'level: %')
				.orderBy('place', 'desc')
				.limit(levelsInHand.resting)
				.execute();
			const others = await rest.where('kind', 'not like', 'level: %').execute();
			return [...turning, ...resting, ...others].sort((one, other) => one.place - other.place).map(entryOf);
		},
		async runs(set) {
			let query = database.selectFrom('entry as start').where('start.place', '=', 0);
			if (set !== null) query = query.where('start.set_id', '=', set);
			const rows = await query
				.innerJoin('entry as last', (join) =>
					join.onRef('last.run', '=', 'start.run').on('last.place', '=', (select) =>
						select
							.selectFrom('entry as any')
							.whereRef('any.run', '=', 'start.run')
							.select((most) => most.fn.max('any.place').as('place')),
					),
				)
				.select([
					'start.run as run',
					'start.set_id as set',
					'start.at_ms as startedAtMs',
					'last.at_ms as lastAtMs',
					// Places count from 0 without a gap: the last tells how many there are, without counting a million.
					sql<number>`last.place + 1`.as('entries'),
				])
				.orderBy('start.at_ms', 'desc')
				.execute();
			return rows;
		},
	};
}
