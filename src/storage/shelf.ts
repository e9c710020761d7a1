import { askedWords, searchWords } from '#record/search-words.ts';
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
	/** Sets that all words of a question are found on, the newest change first: at most so many, from a place on, and how many there are. An empty question finds all. */
	find(
		question: string,
		from: number,
		most: number,
	): Promise<{ readonly sets: readonly ShelvedSet[]; readonly total: number }>;
	/** Ids of all sets, the newest change first. */
	ids(): Promise<readonly string[]>;
	set(id: string): Promise<ShelvedSet | null>;
	/** All versions of a card, oldest first. */
	versions(id: string): Promise<readonly ShelvedSet[]>;
	/** Keeps a card as the newest version; one without an id is given one that is free. */
	keep(card: SetCard, atMs: number): Promise<ShelvedSet>;
	/** Puts a version that was kept elsewhere behind those that are here. */
	add(version: ShelvedSet): Promise<void>;
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
	const put = async (transaction: Store['database'], { id, changedAtMs, card }: ShelvedSet): Promise<void> => {
		const { insertId } = await transaction
			.insertInto('card')
			.values({ set_id: id, changed_at_ms: changedAtMs, card: JSON.stringify(card) })
			.executeTakeFirstOrThrow();
		const [number, words] = [Number(insertId), searchWords(card)];
		await transaction
			.insertInto('standing_card')
			.values({ set_id: id, number, words })
			.onConflict((conflict) => conflict.column('set_id').doUpdateSet({ number, words }))
			.execute();
	};
	return {
		async find(question, from, most) {
			let found = database.selectFrom('standing_card').innerJoin('card', 'card.number', 'standing_card.number');
			for (const word of askedWords(question))
				found = found.where(({ fn, val }) => fn<number>('instr', ['standing_card.words', val(word)]), '>', 0);
			const { total } = await found.select((any) => any.fn.countAll<number>().as('total')).executeTakeFirstOrThrow();
			const rows = await found
				.selectAll('card')
				.orderBy('standing_card.number', 'desc')
				.limit(most)
				.offset(from)
				.execute();
			return { sets: rows.map(shelved), total };
		},
		async ids() {
			const rows = await database.selectFrom('standing_card').select('set_id').orderBy('number', 'desc').execute();
			return rows.map(({ set_id }) => set_id);
		},
		async set(id) {
			return (await versions(id)).at(-1) ?? null;
		},
		versions,
		add: (version) => inTransaction(database, (transaction) => put(transaction, version)),
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
				const version = { id, changedAtMs: atMs, card: kept };
				await put(transaction, version);
				return version;
			});
		},
	};
}
