import type { RunEntry } from '#record/run.ts';

const name = 'entry';

/** Entries of one run with the keys that take them out again. */
interface Kept {
	readonly keys: readonly IDBValidKey[];
	readonly entries: readonly RunEntry[];
}

/** How many entries there are: readings of a level and the rest. */
export interface Counted {
	readonly readings: number;
	readonly others: number;
}

/** Entries on this browser's disk, in the order in which they were put there. Opening fails where the browser keeps nothing for the page. */
export class OutboxStore {
	readonly #open: Promise<IDBDatabase>;

	constructor() {
		this.#open = new Promise((resolve, reject) => {
			const opening = indexedDB.open('peakwright outbox', 1);
			opening.onupgradeneeded = () => {
				const store = opening.result.createObjectStore(name, { autoIncrement: true });
				store.createIndex('run', 'run');
				store.createIndex('kind', 'what.kind');
			};
			opening.onsuccess = () => resolve(opening.result);
			opening.onerror = () => reject(opening.error);
		});
		// Whoever uses the store hears of it.
		this.#open.catch(() => undefined);
	}

	/** Does the work in one transaction and gives what it finds, when the transaction is complete. */
	async #within<Result>(mode: IDBTransactionMode, work: (store: IDBObjectStore) => () => Result): Promise<Result> {
		const transaction = (await this.#open).transaction(name, mode, { durability: 'strict' });
		return new Promise((resolve, reject) => {
			const result = work(transaction.objectStore(name));
			transaction.oncomplete = () => resolve(result());
			transaction.onabort = () => reject(transaction.error);
		});
	}

	/** Puts entries at the end; fulfilled when they are on the disk. */
	add(entries: readonly RunEntry[]): Promise<void> {
		return this.#within('readwrite', (store) => {
			for (const entry of entries) store.add(entry);
			return () => undefined;
		});
	}

	/** Takes entries out. */
	remove(keys: readonly IDBValidKey[]): Promise<void> {
		return this.#within('readwrite', (store) => {
			for (const key of keys) store.delete(key);
			return () => undefined;
		});
	}

	/** The runs that have entries here. */
	runs(): Promise<readonly string[]> {
		return this.#within('readonly', (store) => {
			const runs: string[] = [];
			const cursor = store.index('run').openKeyCursor(null, 'nextunique');
			cursor.onsuccess = () => {
				if (cursor.result === null) return;
				runs.push(cursor.result.key as string);
				cursor.result.continue();
			};
			return () => runs;
		});
	}

	/** The first entries of a run, at most so many. */
	first(run: string, most: number): Promise<Kept> {
		return this.#within('readonly', (store) => {
			const keys = store.index('run').getAllKeys(run, most);
			const entries: IDBRequest<RunEntry[]> = store.index('run').getAll(run, most);
			return () => ({ keys: keys.result, entries: entries.result });
		});
	}

	count(): Promise<Counted> {
		return this.#within('readonly', (store) => {
			const all = store.count();
			const readings = store.index('kind').count('level');
			return () => ({ readings: readings.result, others: all.result - readings.result });
		});
	}
}
