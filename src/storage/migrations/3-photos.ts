import { type Kysely, type Migration, sql } from 'kysely';

/** Photographs of sets: what is said of them beside the picture, so that a list reads no pictures. */
export const photos: Migration = {
	async up(database: Kysely<unknown>) {
		await database.schema
			.createTable('photo')
			.addColumn('id', 'text', (column) => column.primaryKey())
			.addColumn('set_id', 'text', (column) => column.notNull())
			.addColumn('about', 'text', (column) => column.notNull())
			.execute();
		await database.schema.createIndex('photo_of_set').on('photo').columns(['set_id', 'id']).execute();
		await sql`create table picture (
			photo text primary key references photo (id) on delete cascade,
			bytes blob not null
		)`.execute(database);
	},
};
