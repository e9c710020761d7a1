import { existsSync, mkdirSync } from 'node:fs';
import { join } from 'node:path';
import type Database from 'better-sqlite3';
import { Kysely, Migrator, SqliteDialect } from 'kysely';
import type { Parsed } from '#record/parsed.ts';
import { databaseDriver } from './database-driver.ts';
import { faultWords } from './fault-words.ts';
import { first } from './migrations/1-first.ts';
import { standing } from './migrations/2-standing.ts';
import { photos } from './migrations/3-photos.ts';
import { generatorChecks } from './migrations/4-generator-checks.ts';
import { search } from './migrations/5-search.ts';
import { avcLaws } from './migrations/6-avc-laws.ts';
import { instruments } from './migrations/7-instruments.ts';
import { wholeIndex } from './migrations/8-whole-index.ts';
import type { Tables } from './tables.ts';

/** An open database: Kysely for questions, the driver beside it for what only SQLite knows. */
export interface Store {
	readonly database: Kysely<Tables>;
	/** Writes a consistent copy while the store is in use. */
	copyTo(path: string): Promise<void>;
	close(): Promise<void>;
}

/** How long another program's hold on the journal is waited for; the server answers nobody meanwhile. */
const longestWaitMs = 1000;
const fileName = 'peakwright.sqlite';
const migrations = {
	'1-first': first,
	'2-standing': standing,
	'3-photos': photos,
	'4-generator-checks': generatorChecks,
	'5-search': search,
	'6-avc-laws': avcLaws,
	'7-instruments': instruments,
	'8-whole-index': wholeIndex,
};

/** Time as part of a file name: 2026-03-01T18-45-10. */
function stamp(atMs: number): string {
	return new Date(atMs).toISOString().slice(0, 19).replaceAll(':', '-');
}

/** @throws Error where a newer program has changed the data in a way that this one knows nothing of */
function refuseNewer(driver: Database.Database): void {
	const isKept = driver.prepare("select 1 from sqlite_master where name = 'kysely_migration'").get() !== undefined;
	if (!isKept) return;
	const done = driver.prepare('select name from kysely_migration').pluck().all();
	if (done.some((name) => !Object.hasOwn(migrations, String(name))))
		throw new Error('it was written by a newer Peakwright: start that one');
}

async function migrated(
	driver: Database.Database,
	database: Kysely<Tables>,
	folder: string,
	atMs: number,
	isNew: boolean,
): Promise<void> {
	const migrator = new Migrator({ db: database, provider: { getMigrations: async () => migrations } });
	refuseNewer(driver);
	const known = await migrator.getMigrations();
	if (known.every(({ executedAt }) => executedAt !== undefined)) return;
	if (!isNew) await driver.backup(join(folder, `before-change-${stamp(atMs)}.sqlite`));
	const { error } = await migrator.migrateToLatest();
	if (error !== undefined) throw error;
}

/**
 * Opens the journal and the shelf in a folder, making them when they are not there; or says why they cannot be used.
 * Durable: WAL and synchronous=FULL are set at every open, in that order, since SQLite in WAL mode falls back to NORMAL otherwise.
 */
export async function openStore(folder: string, atMs: number): Promise<Parsed<Store>> {
	const loaded = await databaseDriver();
	if (!loaded.ok) return loaded;
	const path = join(folder, fileName);
	let driver: Database.Database;
	let isNew: boolean;
	try {
		mkdirSync(folder, { recursive: true });
		isNew = !existsSync(path);
		driver = new loaded.value(path, { timeout: longestWaitMs });
	} catch (error) {
		return { ok: false, words: `cannot open ${path}: ${faultWords(error)}; or give another folder with --data` };
	}
	try {
		driver.pragma('journal_mode = WAL');
		driver.pragma('synchronous = FULL');
		driver.pragma('foreign_keys = ON');
		const sound = driver.pragma('quick_check(1)', { simple: true });
		if (sound !== 'ok') throw Object.assign(new Error(String(sound)), { code: 'SQLITE_CORRUPT' });
		const database = new Kysely<Tables>({ dialect: new SqliteDialect({ database: driver }) });
		await migrated(driver, database, folder, atMs, isNew);
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
			words: `${path} cannot be used: ${faultWords(error)}. Nothing was changed; another folder can be given by --data`,
		};
	}
}
