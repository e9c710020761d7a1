import { expect, test } from 'vitest';
import { entriesAnswer, standingAnswer } from './messages.ts';

const note = { id: 'a', run: 'r', order: 0, atMs: 1, what: { kind: 'note', text: 'C12 is new.' } };

test('where a run stands is read by the outline of its entries; an entry of a later version or of none is refused', () => {
	expect(standingAnswer.safeParse({ entries: [note] })).toEqual({ success: true, data: { entries: [note] } });
	for (const entry of [
		{ ...note, what: { kind: 'of a later version' } },
		{ ...note, what: null },
		{ ...note, run: 3 },
		{ ...note, id: undefined },
		{ ...note, order: '0' },
		null,
		'note',
	]) {
		expect(standingAnswer.safeParse({ entries: [note, entry] }).success).toBe(false);
		expect(entriesAnswer.safeParse({ entries: [note, entry] }).success).toBe(false);
	}
});
