import { sql } from 'kysely';
import { type Journal, levelsInHand } from '#bench/journal.ts';
import { happening, type RunEntry } from '#record/run.ts';
import type { ListedRun } from '#record/run-standing.ts';
import type { Store } from './store.ts';
import { inTransaction } from './transaction.ts';

/** One run as the list shows it. */
export interface RunSummary extends ListedRun {
	readonly run: string;
	readonly set: string | null;
	readonly startedAtMs: number;
	readonly lastAtMs: number;
	readonly entries: number;
}

/** How many runs a set has. */
export interface RunCount {
	readonly work: number;
	readonly practice: number;
}

const atOnce = 100;

/** Whether the first entry of a run, by its name in a query, begins practice. */
const beginsPractice = (first: string) =>
	sql<0 | 1>`json_extract(${sql.ref(`${first}.what`)}, '$.practice') is not null`;

/** A journal that also lists its runs, gives their entries in pages, and keeps entries inside a transaction that is open already. */
export interface SqliteJournal extends Journal {
	/** Runs of a set, or of all (`null`), the newest first; at most so many. */
	runs(set: string | null, most?: number): Promise<readonly RunSummary[]>;
	/** How many runs each of these sets has, practice apart; a set without any is not told. */
	runCounts(sets: readonly string[]): Promise<ReadonlyMap<string, RunCount>>;
	/** Entries of a run from a place on, in order, at most so many. */
	entries(run: string, from: number, most: number): Promise<readonly RunEntry[]>;
	/** The same as JSON text, for a reader that checks it: a long run is sent on without being taken apart here. */
	entriesText(run: string, from: number, most: number): Promise<string>;
	/** What tells where a run stands, as JSON text. */
	standingText(run: string): Promise<string>;
	/** Checks and trials of generators in all runs, oldest first, those that were struck left out. */
	generatorChecks(): Promise<readonly RunEntry[]>;
	/** Steps of the AVC laws of a set in all its runs, with the begin and the end of each law, oldest first; struck ones left out. */
	avcLaws(set: string): Promise<readonly RunEntry[]>;
	/**
	 * Keeps entries of pages: those kept before are passed over, and one whose place another writer took meanwhile goes behind the run's last, so that each writer's order stays.
	 * Returns how many had to go there.
	 */
	receive(entries: readonly RunEntry[]): Promise<number>;
	/** Keeps entries of another journal, any number of them, as {@link receive} does; returns how many were new. */
	keep(entries: readonly RunEntry[]): Promise<number>;
}

/** Of an entry called `made`: no later one of its run strikes it. */
const unstruck = sql<boolean>`not exists (
	select 1 from entry as later where later.run = made.run and later.reading is null
		and json_extract(later.what, '$.kind') = 'struck' and json_extract(later.what, '$.entry') = made.id)`;

function setOf({ what }: RunEntry): string | null {
	return what.kind === 'started' ? (what.card.id ?? null) : null;
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
					reading: entry.what.kind === 'level' ? entry.what.purpose : null,
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

/** The entries as JSON, each happening as it was kept; whoever reads it checks it. */
function textOf(rows: readonly Row[]): string {
	const entries = rows.map(({ id, run, place, at_ms, what }) => {
		const head = JSON.stringify({ id, run, order: place, atMs: at_ms });
		return `${head.slice(0, -1)},"what":${what}}`;
	});
	return `[${entries.join(',')}]`;
}

/** The journal in SQLite. An entry is in a committed transaction before `append` returns. */
export function sqliteJournal({ database }: Pick<Store, 'database'>): SqliteJournal {
	const receive = (entries: readonly RunEntry[]): Promise<number> =>
		inTransaction(database, async (transaction) => {
			const { fresh, moved } = await placed(transaction, entries);
			await kept(transaction, fresh);
			return moved;
		});
	const ofRun = (run: string) => database.selectFrom('entry').selectAll().where('run', '=', run);
	const pageOf = (run: string, from: number, most: number): Promise<readonly Row[]> =>
		ofRun(run).where('place', '>=', from).orderBy('place').limit(most).execute();
	const standingOf = async (run: string): Promise<readonly Row[]> => {
		// SQLite does not choose these two indexes by itself.
		const others = await sql<Row>`select run, place, id, at_ms, what from entry indexed by entry_but_levels
			where run = ${run} and reading is null order by place`.execute(database);
		const resting = await sql<Row>`select * from entry indexed by level_at_rest
			where run = ${run} and reading <> 'live' order by place desc limit ${levelsInHand.resting}`.execute(database);
		const lastTurn = others.rows.findLast(({ what }) => JSON.parse(what).kind === 'adjusted')?.place ?? -1;
		const live = ofRun(run).where('reading', '=', 'live').orderBy('place', 'desc');
		const turning = await live.where('place', '>', lastTurn).limit(levelsInHand.turning).execute();
		const turned = await live.where('place', '<', lastTurn).limit(levelsInHand.turned).execute();
		return [...turning, ...turned, ...resting.rows, ...others.rows].sort((one, other) => one.place - other.place);
	};
	return {
		receive,
		keep: (entries) =>
			inTransaction(database, async (transaction) => {
				let count = 0;
				for (let start = 0; start < entries.length; start += atOnce)
					count += await kept(transaction, (await placed(transaction, entries.slice(start, start + atOnce))).fresh);
				return count;
			}),
		async append(entries) {
			await receive(entries);
		},
		entries: async (run, from, most) => (await pageOf(run, from, most)).map(entryOf),
		entriesText: async (run, from, most) => textOf(await pageOf(run, from, most)),
		standing: async (run) => (await standingOf(run)).map(entryOf),
		standingText: async (run) => textOf(await standingOf(run)),
		async generatorChecks() {
			const checks = await sql<Row>`select * from entry as made indexed by generator_check
				where reading is null and json_extract(what, '$.kind') = 'generator check' and ${unstruck}`.execute(database);
			const trials = await sql<Row>`select * from entry as made indexed by generator_trial
				where reading is null and json_extract(what, '$.kind') = 'generator trial' and ${unstruck}`.execute(database);
			return [...checks.rows, ...trials.rows].sort((one, other) => one.at_ms - other.at_ms).map(entryOf);
		},
		async avcLaws(set) {
			const { rows } = await sql<Row>`select made.* from entry as begin
				join entry as made indexed by avc_law on made.run = begin.run
				where begin.place = 0 and begin.set_id = ${set} and made.reading is null
					and json_extract(made.what, '$.kind') in ('AVC law begun', 'AVC step', 'AVC law ended') and ${unstruck}
				order by made.at_ms, made.place`.execute(database);
			return rows.map(entryOf);
		},
		async runs(set, most) {
			let query = database.selectFrom('entry as start').where('start.place', '=', 0);
			if (set !== null) query = query.where('start.set_id', '=', set);
			if (most !== undefined) query = query.limit(most);
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
					sql<
						'done' | 'left' | null
					>`case when json_extract(last.what, '$.kind') = 'ended' then json_extract(last.what, '$.how') end`.as(
						'ended',
					),
					beginsPractice('start').as('isPractice'),
				])
				.orderBy('start.at_ms', 'desc')
				.execute();
			return rows.map((row) => ({ ...row, isPractice: row.isPractice === 1 }));
		},
		async runCounts(sets) {
			const rows = await database
				.selectFrom('entry as start')
				.where('start.place', '=', 0)
				.where('start.set_id', 'in', sets)
				.groupBy('start.set_id')
				.select(({ fn }) => [
					'start.set_id as set',
					fn.countAll<number>().as('runs'),
					sql<number>`sum(${beginsPractice('start')})`.as('practice'),
				])
				.execute();
			return new Map(rows.map(({ set, runs, practice }) => [set ?? '', { work: runs - practice, practice }]));
		},
	};
}
