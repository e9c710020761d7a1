import { type Kysely, type Migration, sql } from 'kysely';

/** Checks of generators are asked for over all runs: they are found without looking through these. */
export const generatorChecks: Migration = {
	async up(database: Kysely<unknown>) {
		await sql`create index generator_check on entry (at_ms)
			where reading is null and json_extract(what, '$.kind') = 'generator check'`.execute(database);
	},
};
