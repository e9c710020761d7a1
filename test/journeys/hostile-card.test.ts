import { afterEach, expect, test } from 'vitest';
import { exampleCard } from '../example-set.ts';
import { openPage, settled } from './open-page.ts';

const closing: (() => Promise<void>)[] = [];
afterEach(async () => {
	for (const close of closing.splice(0)) await close();
});

const hostile = '<img src=x onerror="globalThis.struck=1"><script>globalThis.struck=1</script>"\'&\u202e</svg>';

/** The card with the hostile string in every text that a person may write freely. */
function poisoned(value: unknown, key = ''): unknown {
	if (Array.isArray(value)) return value.map((inner) => poisoned(inner, key));
	if (typeof value === 'object' && value !== null)
		return Object.fromEntries(Object.entries(value).map(([inner, item]) => [inner, poisoned(item, inner)]));
	return ['maker', 'model', 'name', 'notes', 'words', 'label', 'tube', 'type'].includes(key) &&
		typeof value === 'string'
		? `${hostile}${value}`.slice(0, 110)
		: value;
}

test('hostile words in every free field of a card stay words on every screen and in every drawing', async () => {
	const { page, program, faults, close } = await openPage();
	closing.push(close);
	const { virtualSet, ...card } = exampleCard();
	const bad = poisoned({ ...card, id: 'hostile', notes: hostile }) as { maker: string };
	const kept = await fetch(`${program.address}/api/sets`, {
		method: 'POST',
		headers: { 'Content-Type': 'application/json' },
		body: JSON.stringify(bad),
	});
	expect(await kept.text()).toContain('hostile');
	expect(bad.maker).toContain('<img');
	for (const screen of ['shelf', 'card/hostile', 'sheet/hostile', 'bench/hostile', 'record/hostile']) {
		await page.goto(`${program.address}/#/${screen}`);
		// The shelf stood open before the card came: what is on the screen is of the card only when its words are there.
		await page.reload();
		await expect.poll(() => page.locator('main').textContent(), { message: screen }).toContain('<img src=x onerror=');
		await settled(page);
		expect(await page.locator('img[src=x]').count(), screen).toBe(0);
		expect(await page.evaluate(() => 'struck' in globalThis), screen).toBe(false);
	}
	expect(faults).toEqual([]);
});
