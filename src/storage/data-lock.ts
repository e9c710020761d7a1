import { mkdirSync } from 'node:fs';
import { join } from 'node:path';
import type Database from 'better-sqlite3';
import type { Parsed } from '#record/parsed.ts';
import { databaseDriver } from './database-driver.ts';
import { faultCode, faultWords } from './fault-words.ts';

/**
 * Takes a data folder for one server; the value gives it back. The lock is the system's own on an empty file,
 * so that it falls with the process that held it, however that ended.
 */
export async function lockData(folder: string): Promise<Parsed<() => void>> {
	const driver = await databaseDriver();
	if (!driver.ok) return driver;
	let lock: Database.Database | undefined;
	try {
		mkdirSync(folder, { recursive: true });
		lock = new driver.value(join(folder, 'in-use.lock'), { timeout: 0 });
		lock.exec('begin exclusive');
		const held = lock;
		return { ok: true, value: () => void held.close() };
	} catch (error) {
		lock?.close();
		if (faultCode(error).startsWith('SQLITE_BUSY')) {
			return {
				ok: false,
				words: `another Peakwright already serves ${folder}: use that one, or give another folder with --data`,
			};
		}
		return { ok: false, words: `cannot work in ${folder}: ${faultWords(error)}; or give another folder with --data` };
	}
}
