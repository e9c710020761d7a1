import type Database from 'better-sqlite3';
import type { Parsed } from '#record/parsed.ts';

/** What opens a database. */
export type DatabaseDriver = typeof Database;

/** The first words of a fault, without the point at their end; the rest lists folders that were looked through. */
const firstLine = (error: unknown): string =>
	(error instanceof Error ? error.message : String(error))
		.split('\n', 1)
		.join('')
		.replace(/\.( Tried:)?$/, '');

/** What to do where the database's compiled part is missing or was made for another Node. */
export function missingDriverWords(error: unknown, machine: string): string {
	return [
		`the database (better-sqlite3) cannot be loaded for ${machine}: ${firstLine(error)}.`,
		'It is fetched ready-made from github.com when the program is installed: see that the network lets it through, and install again (in a clone: npm ci).',
		'Or give the machine a compiler, make and Python (on Debian: apt-get install build-essential python3) and install again.',
		'Commands that keep nothing, such as track, response and part, work without it',
	].join(' ');
}

/** The database's driver, whose compiled part is fetched when it is first needed; or what to do where it is missing. */
export async function databaseDriver(): Promise<Parsed<DatabaseDriver>> {
	try {
		const { default: driver } = await import('better-sqlite3');
		// The compiled part is looked for when a database is opened.
		new driver(':memory:').close();
		return { ok: true, value: driver };
	} catch (error) {
		const { version, platform, arch } = process;
		return { ok: false, words: missingDriverWords(error, `Node ${version} on ${platform} ${arch}`) };
	}
}
