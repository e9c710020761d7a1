import { cruise } from 'dependency-cruiser';
import extractTsConfig from 'dependency-cruiser/config-utl/extract-ts-config';
import { expect, test } from 'vitest';
import layers from '../.dependency-cruiser.mjs';
import { sourceFiles } from '../tools/house-rules.ts';

test('the layer check sees every source file', async () => {
	const { output } = await cruise(
		['src'],
		{ ...layers.options, ruleSet: { forbidden: layers.forbidden }, validate: true } as never,
		undefined,
		{ tsConfig: extractTsConfig('tsconfig.node.json') },
	);
	if (typeof output === 'string') throw new Error(`unexpected report: ${output.slice(0, 200)}`);
	const seen = new Set(output.modules.map((module) => module.source));
	expect(sourceFiles('src').filter((path) => !seen.has(path))).toEqual([]);
});
