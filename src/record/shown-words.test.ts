import { expect, test } from 'vitest';
import { parseSetCard } from './set-card-file.ts';

test('a card that breaks off is told where, and a file of another kind is called so without its bytes', () => {
	expect(parseSetCard('{"model": ')).toMatchObject({
		words: expect.stringMatching(/^this is not JSON: Unexpected end/),
	});
	// First bytes of a JPEG, of a zip, and of nothing.
	for (const text of ['\ufffd\ufffd\ufffd\ufffd\0\u0010JFIF', 'PK\u0003\u0004', ''])
		expect(parseSetCard(text)).toEqual({ ok: false, words: 'this is not JSON: it is another kind of file' });
});
