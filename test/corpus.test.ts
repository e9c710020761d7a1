import { readdirSync } from 'node:fs';
import { expect, test } from 'vitest';
import { corpusFolder, keptInputs, parsers } from '../tools/fuzz/parsers.ts';

test('every input that once broke a reader is read or refused in words', async () => {
	expect(parsers.map(({ name }) => name)).toEqual(expect.arrayContaining(readdirSync(corpusFolder)));
	let count = 0;
	for (const parser of parsers)
		for (const input of keptInputs(parser.name)) {
			await parser.judge(input);
			count++;
		}
	expect(count).toBeGreaterThan(0);
});

test('what each reader begins with is read or refused in words', async () => {
	for (const parser of parsers)
		for (const begin of parser.begins) expect(await parser.judge(Buffer.from(begin)), parser.name).not.toBe('');
});
