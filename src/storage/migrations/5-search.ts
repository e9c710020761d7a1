import { type Kysely, type Migration, sql } from 'kysely';
import { searchWords } from '#record/search-words.ts';
import { setCardSchema } from '#record/set-card.ts';

/** The newest card of each set by the words that it is found by, so that a long shelf is listed and searched without reading its cards. */
export const search: Migration = {
	async up(database: Kysely<unknown>) {
		await database.schema
			.createTable('standing_card')
			.addColumn('set_id', 'text', (column) => column.primaryKey())
			.addColumn('number', 'integer', (column) => column.notNull())
			.addColumn('words', 'text', (column) => column.notNull())
			.execute();
		await sql`create unique index standing_by_number on standing_card (number)`.execute(database);
		// The newest runs of all sets are listed without sorting all that ever were.
		await sql`create index run_by_time on entry (at_ms, set_id, run) where place = 0`.execute(database);
		const newest = await sql<{ number: number; set_id: string; card: string }>`select number, set_id, card from card
			where number in (select max(number) from card group by set_id)`.execute(database);
		for (const { number, set_id, card } of newest.rows) {
			const words = searchWords(setCardSchema.parse(JSON.parse(card)));
			await sql`insert into standing_card values (${set_id}, ${number}, ${words})`.execute(database);
		}
	},
};
