import { type Kysely, type Migration, sql } from 'kysely';

/** Steps of AVC laws are asked for over all runs of a set, trials of generators over all runs: they are found without looking through these. */
export const avcLaws: Migration = {
	async up(database: Kysely<unknown>) {
		await sql`create index avc_law on entry (run)
			where reading is null and json_extract(what, '$.kind') in ('AVC law begun', 'AVC step', 'AVC law ended')`.execute(
			database,
		);
		await sql`create index generator_trial on entry (at_ms)
			where reading is null and json_extract(what, '$.kind') = 'generator trial'`.execute(database);
	},
};
