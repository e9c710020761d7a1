import { type Kysely, type Migration, sql } from 'kysely';

/** Cards and entries; entries are kept in the order of their run. */
export const first: Migration = {
	async up(database: Kysely<unknown>) {
		await database.schema
			.createTable('card')
			.addColumn('number', 'integer', (column) => column.primaryKey().autoIncrement())
			.addColumn('set_id', 'text', (column) => column.notNull())
			.addColumn('changed_at_ms', 'real', (column) => column.notNull())
			.addColumn('card', 'text', (column) => column.notNull())
			.execute();
		await database.schema.createIndex('card_by_set').on('card').columns(['set_id', 'number']).execute();
		await sql`create table entry (
			run text not null,
			place integer not null,
			id text not null,
			at_ms real not null,
			set_id text,
			what text not null,
			primary key (run, place)
		) without rowid`.execute(database);
		await database.schema.createIndex('entry_by_id').unique().on('entry').column('id').execute();
		await sql`create index run_of_set on entry (set_id, run, at_ms) where place = 0`.execute(database);
	},
};
