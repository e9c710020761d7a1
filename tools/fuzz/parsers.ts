import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { archiveParsers } from './archive-parser.ts';
import { byteParsers } from './byte-parsers.ts';
import { httpParsers } from './http-parser.ts';
import type { FuzzedParser } from './parser.ts';
import { recordParsers } from './record-parsers.ts';
import { textParsers } from './text-parsers.ts';

/** Every reader of what comes from outside. */
export const parsers: readonly FuzzedParser[] = [
	...textParsers,
	...byteParsers,
	...recordParsers,
	...archiveParsers,
	...httpParsers,
];

/** Where inputs are kept that once broke a reader, a folder for each. */
export const corpusFolder = 'test/corpus';

/** The inputs that are kept for a parser. */
export function keptInputs(name: string): readonly Uint8Array[] {
	const folder = join(corpusFolder, name);
	return existsSync(folder)
		? readdirSync(folder)
				.sort()
				.map((file) => readFileSync(join(folder, file)))
		: [];
}
