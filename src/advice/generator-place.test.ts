import { expect, test } from 'vitest';
import { knownGenerators, placeWords, truthOf } from './generator-place.ts';

const dayMs = 86_400_000;
const check = (generator: string, readsHz: number, trueHz: number, atMs: number) => ({
	atMs,
	check: { kind: 'generator check' as const, generator, readsHz, trueHz, uncertaintyHz: 100, words: '' },
});

test('each generator keeps its own corrections, and says where its dial has to stand', () => {
	const known = knownGenerators(
		[
			check('bench', 1000e3, 1010e3, 0),
			check('bench', 1200e3, 1213e3, 0),
			check('bench', 1400e3, 1416e3, 0),
			check('loan', 1000e3, 990e3, 10 * dayMs),
		],
		12 * dayMs,
	);
	expect(known.map(({ name }) => name)).toEqual(['loan', 'bench']);
	const [loan, bench] = known;
	// Half way between two checks that are 10 and 13 kc off the dial is 11.5 kc off.
	expect(truthOf(bench, 1100e3).value).toBeCloseTo(1111.5e3, 6);
	expect(truthOf(undefined, 1200e3)).toEqual({ value: 1200e3, uncertainty: 0 });
	if (!loan || !bench) throw new Error('missing');
	expect(placeWords(bench, 1111.5e3, 12 * dayMs)).toMatch(
		/^1100\.00 . 0\.08 kc on the dial of bench, checked 12 days ago$/,
	);
	// One check goes on in proportion, 990 for 1,000, and says that it is a guess far from it.
	expect(placeWords(loan, 1485e3, 12 * dayMs)).toMatch(/^1500 . \d+ kc on the dial of loan, .*: make one$/);
});
