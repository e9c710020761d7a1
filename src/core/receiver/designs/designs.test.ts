import { expect, test } from 'vitest';
import { designs } from './designs.ts';

test('a card that names no virtual set finds none, whatever the word', () => {
	expect(Object.keys(designs)).toEqual(['tm-517', 'tm-523']);
	for (const id of ['', 'constructor', 'tostring', '__proto__']) expect(designs[id]).toBeUndefined();
});
