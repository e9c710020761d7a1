import { type Kysely, type Migration, sql } from 'kysely';

/** The kind of each entry beside it, that of a level with its purpose, and an index of all but the levels read while turning: what tells where a run stands is found without reading those. */
export const standing: Migration = {
	async up(database: Kysely<unknown>) {
		await database.schema
			.alterTable('entry')
			.addColumn('kind', 'text', (column) => column.notNull().defaultTo(''))
			.execute();
		await sql`update entry set kind = json_extract(what, '$.kind') || coalesce(': ' || json_extract(what, '$.purpose'), '')`.execute(
			database,
		);
		await sql`create index entry_but_turning on entry (run, place, kind) where kind <> 'level: live'`.execute(database);
	},
};
