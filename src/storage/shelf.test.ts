import { mkdtempSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import type { SetCard } from '#record/set-card.ts';
import { sqliteShelf } from './shelf.ts';
import { openStore } from './store.ts';

const card = (more: Partial<SetCard>): SetCard => ({
	schema: 'peakwright/set-card',
	version: 1,
	supply: 'transformer',
	...more,
});

test('a set is found by maker, model, tube, IF and year in whatever way they are written, all words together', async () => {
	const store = await openStore(mkdtempSync(join(tmpdir(), 'peakwright-shelf-')), 0);
	if (!store.ok) throw new Error(store.words);
	const shelf = sqliteShelf(store.value);
	const tubes = [
		{ stage: 'converter', type: '6A8-G' },
		{ stage: 'IF', type: '6K7' },
	];
	await shelf.keep(
		card({ maker: '\u00c9clair', model: 'R 12', year: 1936, tubes, ifDesigned: [{ frequency: '456kc' }] }),
		1,
	);
	await shelf.keep(card({ maker: 'Larkwater', model: '100%_x', ifFound: [{ frequency: '10.7Mc' }] }), 2);
	await shelf.keep(card({ id: 'larkwater-100-x', maker: 'Larkwater', model: 'changed', year: 1951 }), 3);
	const found = async (question: string) => (await shelf.find(question, 0, 9)).sets.map(({ id }) => id);
	const [first, second] = ['eclair-r-12', 'larkwater-100-x'];
	for (const question of [
		'eclair',
		'\u00c9CLAIR 1936',
		'6a8',
		'456 kc',
		'456kc/s',
		'0.456 MHz',
		'456',
		'r 12 6k7',
		' 456  kHz,6A8 ',
	])
		expect([question, await found(question)]).toEqual([question, [first]]);
	// Only the card as it stands now counts.
	for (const question of ['100%_x', '10.7', '6a8 larkwater', "' or 1=1 --", '%', '_'])
		expect([question, await found(question)]).toEqual([question, []]);
	expect(await found('')).toEqual([second, first]);
	expect(await shelf.find('', 1, 1)).toMatchObject({ total: 2, sets: [{ id: first }] });
	expect(await found('x'.repeat(5000))).toEqual([]);
	await store.value.close();
});
