import { existsSync, mkdirSync } from 'node:fs';
import { join } from 'node:path';
import Database from 'better-sqlite3';
import { Kysely, Migrator, SqliteDialect } from 'kysely';
import type { Parsed } from '#record/parsed.ts';
import { first } from './migrations/1-first.ts';
import { standing } from './migrations/2-standing.ts';
import type { Tables } from './tables.ts';

/** An open database: Kysely for questions, the driver beside it for what only SQLite knows. */
export interface Store {
	readonly database: Kysely<Tables>;
	/** Writes a consistent copy while the store is in use. */
	copyTo(path: string): Promise<void>;
	close(): Promise<void>;
}

const fileName = 'peakwright.sqlite';
const migrations = { '1-first': first, '2-standing': standing };

const fault = (error: unknown): string => (error instanceof Error ? error.message : String(error));

/** Time as part of a file name: 2026-03-01T18-45-10. */
function stamp(atMs: number): string {
	return new Date(atMs).toISOString().slice(0, 19).replaceAll(':', '-');
}

async function migrated(
	driver: Database.Database,
	database: Kysely<Tables>,
	folder: string,
	atMs: number,
	isNew: boolean,
): Promise<string | null> {
	const migrator = new Migrator({ db: database, provider: { getMigrations: async () => migrations } });
	const known = await migrator.getMigrations();
	if (known.every(({ executedAt }) => executedAt !== undefined)) return null;
	if (!isNew) await driver.backup(join(folder, `before-change-${stamp(atMs)}.sqlite`));
	const { error } = await migrator.migrateToLatest();
	return error === undefined ? null : fault(error);
}

/**
 * Opens the journal and the shelf in a folder, making them when they are not there; or says why they cannot be used.
 * Durable: WAL and synchronous=FULL are set at every open, in that order, since SQLite in WAL mode falls back to NORMAL otherwise.
 */
export async function openStore(folder: string, atMs: number): Promise<Parsed<Store>> {
	const path = join(folder, fileName);
	let driver: Database.Database;
	let isNew: boolean;
	try {
		mkdirSync(folder, { recursive: true });
		isNew = !existsSync(path);
		driver = new Database(path, { timeout: 3000 });
	} catch (error) {
		return { ok: false, words: `cannot open ${path}: ${fault(error)}; give another folder with --data` };
	}
	try {
		driver.pragma('journal_mode = WAL');
		driver.pragma('synchronous = FULL');
		driver.pragma('foreign_keys = ON');
		const sound = driver.pragma('quick_check(1)', { simple: true });
		if (sound !== 'ok') throw new Error(String(sound));
		const database = new Kysely<Tables>({ dialect: new SqliteDialect({ database: driver }) });
		const failed = await migrated(driver, database, folder, atMs, isNew);
		if (failed !== null) throw new Error(failed);
		return {
			ok: true,
			value: {
				database,
				copyTo: async (target) => {
					await driver.backup(target);
				},
				close: () => database.destroy(),
			},
		};
	} catch (error) {
		driver.close();
		return {
			ok: false,
			words: `${path} cannot be used: ${fault(error)}. Nothing was changed: put a backup in its place, or start with another folder by --data`,
		};
	}
}
