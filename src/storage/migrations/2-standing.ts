import { type Kysely, type Migration, sql } from 'kysely';

/** The kind of each entry beside it, and an index of all entries but levels: what tells where a run stands is found without reading its levels. */
export const standing: Migration = {
	async up(database: Kysely<unknown>) {
		await database.schema
			.alterTable('entry')
			.addColumn('kind', 'text', (column) => column.notNull().defaultTo(''))
			.execute();
		await sql`update entry set kind = json_extract(what, '$.kind')`.execute(database);
		await sql`create index entry_but_levels on entry (run, place) where kind <> 'level'`.execute(database);
	},
};
