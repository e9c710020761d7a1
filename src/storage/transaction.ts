import type { Transaction } from 'kysely';
import type { Store } from './store.ts';
import type { Tables } from './tables.ts';

/**
 * Does work in one transaction, all of it or none; within a transaction it is part of that one. The fault that ended the work is the one that is told:
 * SQLite has undone a transaction by itself when the disk is full, and undoing it once more would only hide why.
 */
export async function inTransaction<Result>(
	database: Store['database'],
	work: (transaction: Transaction<Tables>) => Promise<Result>,
): Promise<Result> {
	if (database.isTransaction) return work(database as Transaction<Tables>);
	let fault: unknown;
	try {
		return await database.transaction().execute(async (transaction) => {
			try {
				return await work(transaction);
			} catch (error) {
				fault = error;
				throw error;
			}
		});
	} catch (error) {
		throw fault ?? error;
	}
}
