import { expect, test } from 'vitest';
import { generatorWorth } from '#advice/generator-worth.ts';
import { generatorHz, serviceGenerator } from '#core/receiver/service-generator.ts';
import { generatorTruth } from './generator-truth.ts';

test('what was found of an old generator stands beside what it is', () => {
	const generator = serviceGenerator(7);
	const trueHz = generatorHz(generator, 1e6 * (1 - generator.slopShare / 2), 86_400);
	const check = { kind: 'generator check', readsHz: 1e6, trueHz, uncertaintyHz: 300, words: '' } as const;
	const [dial, , leak] = generatorTruth(7, [check], generatorWorth([]));
	expect(dial?.found).toBe(dial?.truth);
	expect(leak).toMatchObject({ found: null });
});
