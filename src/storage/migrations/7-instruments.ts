import { type Kysely, type Migration, sql } from 'kysely';

/** The instruments that the program drives, for page and terminal alike. */
export const instruments: Migration = {
	async up(database: Kysely<unknown>) {
		await sql`create table instrument (which text primary key not null, about text not null) strict`.execute(database);
	},
};
