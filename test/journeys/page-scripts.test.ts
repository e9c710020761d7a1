import { expect, test } from 'vitest';
import { mainJobScriptsBytes } from '../../tools/keeping/page-scripts.ts';

// Chosen: what a page may weigh that opens at once on an old laptop.
const mostBytes = 150_000;

test('one alignment, from the shelf to the record, fetches no more script than a page may weigh', async () => {
	expect(await mainJobScriptsBytes()).toBeLessThan(mostBytes);
}, 300_000);
