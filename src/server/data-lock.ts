import { closeSync, mkdirSync, openSync, readFileSync, unlinkSync, writeSync } from 'node:fs';
import { join } from 'node:path';
import type { Parsed } from '#record/parsed.ts';

function isAlive(processNumber: number): boolean {
	try {
		process.kill(processNumber, 0);
		return true;
	} catch (error) {
		return (error as NodeJS.ErrnoException).code === 'EPERM';
	}
}

/**
 * Takes a data folder for one server; the value gives it back. A lock left by a process that is gone is taken over.
 */
export function lockData(folder: string): Parsed<() => void> {
	const path = join(folder, 'server.lock');
	for (let round = 0; round < 2; round++) {
		try {
			mkdirSync(folder, { recursive: true });
			const file = openSync(path, 'wx');
			writeSync(file, String(process.pid));
			closeSync(file);
			return { ok: true, value: () => unlinkSync(path) };
		} catch (error) {
			if ((error as NodeJS.ErrnoException).code !== 'EEXIST') {
				return {
					ok: false,
					words: `cannot write in ${folder}: ${(error as Error).message}; give another folder with --data`,
				};
			}
			const holder = Number(readFileSync(path, 'utf8'));
			if (Number.isInteger(holder) && holder > 0 && holder !== process.pid && isAlive(holder)) {
				return {
					ok: false,
					words: `another Peakwright (process ${holder}) already serves ${folder}: use that one, or give another folder with --data`,
				};
			}
			unlinkSync(path);
		}
	}
	return { ok: false, words: `cannot take ${folder} for this server: try again` };
}
