import { type Kysely, type Migration, sql } from 'kysely';

/**
 * SQLite takes the entries that are no level from their index alone only if the index holds the column of its own condition too;
 * without it each of them was looked up in the journal, which in a long run lies all over the file.
 */
export const wholeIndex: Migration = {
	async up(database: Kysely<unknown>) {
		await sql`drop index entry_but_levels`.execute(database);
		await sql`create index entry_but_levels on entry (run, place, id, at_ms, what, reading) where reading is null`.execute(
			database,
		);
	},
};
