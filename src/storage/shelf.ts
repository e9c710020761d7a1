import { type SetCard, setCardSchema } from '#record/set-card.ts';
import type { Store } from './store.ts';
import { inTransaction } from './transaction.ts';

/** A set on the shelf with the newest version of its card. */
export interface ShelvedSet {
	readonly id: string;
	readonly changedAtMs: number;
	readonly card: SetCard;
}

/** The sets that are kept; each change of a card is a new version and the older ones stay. */
export interface Shelf {
	sets(): Promise<readonly ShelvedSet[]>;
	set(id: string): Promise<ShelvedSet | null>;
	/** All versions of a card, oldest first. */
	versions(id: string): Promise<readonly ShelvedSet[]>;
	/** Keeps a card as the newest version; one without an id is given one that is free. */
	keep(card: SetCard, atMs: number): Promise<ShelvedSet>;
}

/** An id made from maker and model: small letters, figures and hyphens. */
function idFrom(card: SetCard): string {
	const words = [card.maker, card.model]
		.filter(Boolean)
		.join(' ')
		.normalize('NFKD')
		.replace(/\p{M}/gu, '')
		.toLowerCase();
	return (
		words
			.replace(/[^a-z0-9]+/g, '-')
			.replace(/^-+|-+$/g, '')
			.slice(0, 30)
			.replace(/-+$/, '') || 'set'
	);
}

/** The shelf in SQLite. */
export function sqliteShelf({ database }: Store): Shelf {
	const shelved = (row: { set_id: string; changed_at_ms: number; card: string }): ShelvedSet => ({
		id: row.set_id,
		changedAtMs: row.changed_at_ms,
		card: setCardSchema.parse(JSON.parse(row.card)),
	});
	const versions = async (id: string) => {
		const rows = await database.selectFrom('card').selectAll().where('set_id', '=', id).orderBy('number').execute();
		return rows.map(shelved);
	};
	return {
		async sets() {
			const newest = database
				.selectFrom('card')
				.select((select) => select.fn.max('number').as('number'))
				.groupBy('set_id');
			const rows = await database
				.selectFrom('card')
				.selectAll()
				.where('number', 'in', newest)
				.orderBy('number', 'desc')
				.execute();
			return rows.map(shelved);
		},
		async set(id) {
			return (await versions(id)).at(-1) ?? null;
		},
		versions,
		async keep(card, atMs) {
			return inTransaction(database, async (transaction) => {
				let id = card.id ?? idFrom(card);
				const taken = async (candidate: string) =>
					(await transaction
						.selectFrom('card')
						.select('number')
						.where('set_id', '=', candidate)
						.limit(1)
						.executeTakeFirst()) !== undefined;
				if (card.id === undefined) for (let number = 2; await taken(id); number++) id = `${idFrom(card)}-${number}`;
				const kept = { ...card, id };
				await transaction
					.insertInto('card')
					.values({ set_id: id, changed_at_ms: atMs, card: JSON.stringify(kept) })
					.execute();
				return { id, changedAtMs: atMs, card: kept };
			});
		},
	};
}
