import { expect, test } from 'vitest';
import { sheetOptions, usualOptions } from './sheet-options.ts';

test('what is not chosen is the usual choice, and a choice that is none is refused with those that are', () => {
	expect(sheetOptions({})).toEqual({ ok: true, value: usualOptions });
	expect(sheetOptions({ words: 'UK', paper: 'A4' })).toEqual({ ok: true, value: { ...usualOptions, words: 'UK' } });
	expect(sheetOptions({ coupling: 'tight' })).toEqual({
		ok: false,
		words: 'coupling: cannot use "tight": give "direct" or "loose"',
	});
});
