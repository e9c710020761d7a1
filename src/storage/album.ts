import { type Photo, type PhotoWords, photo } from '#record/photo.ts';
import type { Store } from './store.ts';
import { inTransaction } from './transaction.ts';

/** The photographs of sets. */
export interface Album {
	/** Photographs of a set, oldest first. */
	photos(set: string): Promise<readonly Photo[]>;
	/** The picture of a photograph, a JPEG; `null` when there is none of that id. */
	picture(id: string): Promise<Uint8Array | null>;
	/** Keeps a photograph with its picture; one that is here already is passed over. Tells whether it was new. */
	keep(set: string, about: Photo, picture: Uint8Array): Promise<boolean>;
	/** Says something else of a photograph; `null` when there is none of that id. */
	describe(id: string, words: PhotoWords): Promise<Photo | null>;
	/** Takes a photograph away for good. */
	remove(id: string): Promise<void>;
}

/** The album in SQLite. */
export function sqliteAlbum({ database }: Pick<Store, 'database'>): Album {
	const aboutOf = (text: string): Photo => photo.parse(JSON.parse(text));
	return {
		async photos(set) {
			const rows = await database.selectFrom('photo').select('about').where('set_id', '=', set).orderBy('id').execute();
			return rows
				.map(({ about }) => aboutOf(about))
				.sort((one, other) => one.addedAtMs - other.addedAtMs || (one.id < other.id ? -1 : 1));
		},
		async picture(id) {
			const row = await database.selectFrom('picture').select('bytes').where('photo', '=', id).executeTakeFirst();
			return row?.bytes ?? null;
		},
		keep: (set, about, bytes) =>
			inTransaction(database, async (transaction) => {
				const { numInsertedOrUpdatedRows } = await transaction
					.insertInto('photo')
					.values({ id: about.id, set_id: set, about: JSON.stringify(photo.parse(about)) })
					.onConflict((conflict) => conflict.column('id').doNothing())
					.executeTakeFirstOrThrow();
				if (numInsertedOrUpdatedRows !== 1n) return false;
				await transaction.insertInto('picture').values({ photo: about.id, bytes }).execute();
				return true;
			}),
		describe: (id, words) =>
			inTransaction(database, async (transaction) => {
				const row = await transaction.selectFrom('photo').select('about').where('id', '=', id).executeTakeFirst();
				if (!row) return null;
				const about = photo.parse({ ...aboutOf(row.about), ...words });
				await transaction
					.updateTable('photo')
					.set({ about: JSON.stringify(about) })
					.where('id', '=', id)
					.execute();
				return about;
			}),
		async remove(id) {
			await database.deleteFrom('photo').where('id', '=', id).execute();
		},
	};
}
