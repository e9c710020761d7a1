import { afterEach, expect, test } from 'vitest';
import { curve, endBenches, ready } from '../../test/served-host.ts';

afterEach(endBenches);

test('a meter is read for the page again and again over one connection, but not while the instruments are at work', async () => {
	const own = await ready();
	const read = async (place = own.instrument.place) => {
		const answer = await own.app.request('/api/host/reading', {
			method: 'POST',
			headers: { host: '127.0.0.1:1', 'Content-Type': 'application/json' },
			body: JSON.stringify({ meter: { place, description: null } }),
		});
		return { status: answer.status, body: (await answer.json()) as { reading?: { trust: string }; fault?: string } };
	};
	const before = own.lines.filter((line) => line === '*IDN?').length;
	for (let count = 0; count < 3; count++)
		expect(await read()).toMatchObject({ status: 200, body: { reading: { trust: 'no tone' } } });
	expect(own.lines.filter((line) => line === '*IDN?')).toHaveLength(before + 1);
	expect(await read('not a place')).toMatchObject({ status: 422 });
	own.host.attach(() => undefined);
	await own.begin(curve);
	expect(await read()).toMatchObject({ status: 409, body: { fault: expect.stringContaining('at work') } });
});
