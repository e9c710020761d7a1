import { type Kysely, type Migration, sql } from 'kysely';

/**
 * What each level was read for stands beside it, empty for all else, so that two indexes can tell where a run stands without its other levels:
 * one holds every entry that is no level, whole; one finds the levels that were not read while turning.
 */
export const standing: Migration = {
	async up(database: Kysely<unknown>) {
		await database.schema.alterTable('entry').addColumn('reading', 'text').execute();
		await sql`update entry set reading = json_extract(what, '$.purpose')`.execute(database);
		await sql`create index entry_but_levels on entry (run, place, id, at_ms, what) where reading is null`.execute(
			database,
		);
		await sql`create index level_at_rest on entry (run, place) where reading <> 'live'`.execute(database);
	},
};
