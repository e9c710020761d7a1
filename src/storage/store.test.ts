import { mkdtempSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { sql } from 'kysely';
import { expect, test } from 'vitest';
import { openStore } from './store.ts';

test('data that a newer program has changed are refused in words and left as they are', async () => {
	const folder = mkdtempSync(join(tmpdir(), 'peakwright-store-'));
	const store = await openStore(folder, 0);
	if (!store.ok) throw new Error(store.words);
	await sql`insert into kysely_migration (name, timestamp) values ('900-of-tomorrow', '2030-01-01')`.execute(
		store.value.database,
	);
	await store.value.close();
	expect(await openStore(folder, 0)).toMatchObject({
		ok: false,
		words: expect.stringMatching(/written by a newer Peakwright: start that one\. Nothing was changed/),
	});
});
