import { existsSync, readFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';

/** The folder of this program, where its page and its examples are. */
export function packageRoot(): string {
	for (let folder = dirname(fileURLToPath(import.meta.url)); ; folder = dirname(folder)) {
		const file = join(folder, 'package.json');
		if (existsSync(file) && (JSON.parse(readFileSync(file, 'utf8')) as { name?: string }).name === 'peakwright')
			return folder;
		if (folder === dirname(folder))
			throw new Error('missing package.json: expected one named peakwright above this file');
	}
}

/** The version of this program, `0.1.0`. */
export function packageVersion(): string {
	return (JSON.parse(readFileSync(join(packageRoot(), 'package.json'), 'utf8')) as { version: string }).version;
}
