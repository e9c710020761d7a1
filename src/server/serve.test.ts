import { mkdtempSync, readFileSync, writeFileSync } from 'node:fs';
import { request } from 'node:http';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, expect, test } from 'vitest';
import { type RunningServer, serve } from './serve.ts';

const running: RunningServer[] = [];
afterEach(async () => {
	for (const server of running.splice(0)) await server.stop();
});

const newFolder = () => mkdtempSync(join(tmpdir(), 'peakwright-server-'));

async function start(folder = newFolder()): Promise<RunningServer> {
	const server = await serve({ folder, port: 0, nowMs: () => 1_700_000_000_000, notice: () => {} });
	if (!server.ok) throw new Error(server.words);
	running.push(server.value);
	return server.value;
}

/** Asks with headers that a browser would set and `fetch` would not allow. */
function ask(
	address: string,
	method: string,
	path: string,
	headers: Record<string, string>,
	body = '',
): Promise<number> {
	return new Promise((resolve, reject) => {
		const asked = request(`${address}${path}`, { method, headers }, (answer) => {
			answer.resume();
			resolve(answer.statusCode ?? 0);
		});
		asked.on('error', reject);
		asked.end(body);
	});
}

const send = (address: string, path: string, body: unknown, method = 'POST') =>
	fetch(`${address}/api${path}`, {
		method,
		body: JSON.stringify(body),
		headers: { 'Content-Type': 'application/json' },
	});

const entry = (order: number, text = `note ${order}`) => ({
	id: `e${order}`,
	run: 'r1',
	order,
	atMs: order,
	what: { kind: 'note', text },
});

test('a new shelf holds the demo sets', async () => {
	const { address } = await start();
	const { sets } = (await (await fetch(`${address}/api/sets`)).json()) as { sets: { id: string }[] };
	expect(sets.map(({ id }) => id)).toContain('thistlemoor-tm-517');
});

test('a card is kept, changed and read back; a wrong one is refused with the place', async () => {
	const { address } = await start();
	const card = {
		schema: 'peakwright/set-card',
		version: 1,
		supply: 'transformer',
		maker: '\u00c9clair <b>',
		model: '../../x',
	};
	const kept = (await (await send(address, '/sets', card)).json()) as { id: string };
	expect(kept.id).toBe('eclair-b-x');
	const second = (await (await send(address, '/sets', card)).json()) as { id: string };
	expect(second.id).toBe('eclair-b-x-2');
	expect((await send(address, `/sets/${kept.id}`, { ...card, year: 1938 }, 'PUT')).status).toBe(200);
	const read = (await (await fetch(`${address}/api/sets/${kept.id}`)).json()) as {
		card: { year: number; maker: string };
	};
	expect(read.card).toMatchObject({ year: 1938, maker: '\u00c9clair <b>' });
	const refused = await send(address, '/sets', { ...card, year: 'soon' });
	expect(refused.status).toBe(422);
	expect(((await refused.json()) as { fault: string }).fault).toMatch(/^year: /);
});

test('entries sent twice are kept once, in the order of the run, and survive a restart', async () => {
	const folder = newFolder();
	const first = await start(folder);
	expect((await send(first.address, '/runs/r1/entries', { entries: [entry(0), entry(1)] })).status).toBe(200);
	expect((await send(first.address, '/runs/r1/entries', { entries: [entry(1), entry(2)] })).status).toBe(200);
	await running.pop()?.stop();
	const again = await start(folder);
	const { entries } = (await (await fetch(`${again.address}/api/runs/r1/entries`)).json()) as {
		entries: { what: { text: string } }[];
	};
	expect(entries.map(({ what }) => what.text)).toEqual(['note 0', 'note 1', 'note 2']);
});

test('entries of another run, of another shape or too many at once are refused whole', async () => {
	const { address } = await start();
	const refused = [
		{ entries: [{ ...entry(0), run: 'r2' }] },
		{ entries: [entry(0), { kind: 'nonsense' }] },
		{ entries: [] },
		'x',
	];
	for (const body of refused) expect((await send(address, '/runs/r1/entries', body)).status).toBe(422);
	const { entries } = (await (await fetch(`${address}/api/runs/r1/entries`)).json()) as { entries: unknown[] };
	expect(entries).toEqual([]);
});

test('only the page itself is answered: not another host, origin or site', async () => {
	const { address } = await start();
	const host = new URL(address).host;
	expect(await ask(address, 'GET', '/api/sets', { host })).toBe(200);
	expect(await ask(address, 'GET', '/api/sets', { host: 'evil.example' })).toBe(403);
	expect(await ask(address, 'GET', '/api/sets', { host: `127.0.0.1.evil.example:${new URL(address).port}` })).toBe(403);
	expect(await ask(address, 'POST', '/api/sets', { host, origin: 'http://evil.example' }, '{}')).toBe(403);
	expect(await ask(address, 'POST', '/api/sets', { host, 'sec-fetch-site': 'cross-site' }, '{}')).toBe(403);
});

test('a link from another site opens the page, but no picture or frame there asks anything', async () => {
	const { address } = await start();
	const host = new URL(address).host;
	const asked = (path: string, mode: string, dest: string, site = 'cross-site') =>
		ask(address, 'GET', path, { host, 'sec-fetch-site': site, 'sec-fetch-mode': mode, 'sec-fetch-dest': dest });
	// The page itself may not be built where this runs.
	expect(await asked('/', 'navigate', 'document')).not.toBe(403);
	// Who is told how the host's instruments stand counts as somebody at the page.
	expect(await asked('/api/host/events', 'no-cors', 'image')).toBe(403);
	expect(await asked('/api/host/events', 'navigate', 'document')).toBe(403);
	expect(await asked('/', 'navigate', 'iframe')).toBe(403);
	expect(await asked('/api/sets', 'cors', 'empty', 'same-site')).toBe(403);
	expect(await asked('/api/sets', 'cors', 'empty', 'same-origin')).toBe(200);
});

test('no path climbs out of the page, and every answer carries the policy', async () => {
	const { address } = await start();
	const host = new URL(address).host;
	for (const path of [
		'/../package.json',
		'/..%2fpackage.json',
		'/%2e%2e/package.json',
		'/assets/../../package.json',
		'/%',
	]) {
		expect(await ask(address, 'GET', path, { host }), path).toBe(404);
	}
	const policy = (await fetch(`${address}/api/sets`)).headers.get('content-security-policy') ?? '';
	expect(policy).toContain("default-src 'none'");
	expect(policy).not.toContain('unsafe');
});

test('a body of 50 megabytes is refused', async () => {
	const { address } = await start();
	const answer = await fetch(`${address}/api/sets`, { method: 'POST', body: 'x'.repeat(50_000_000) }).catch(() => null);
	expect(answer === null || answer.status === 413).toBe(true);
	expect((await fetch(`${address}/api/sets`)).status).toBe(200);
});

test('a second server on the same data is refused; when the first is gone the data is free', async () => {
	const folder = newFolder();
	const first = await start(folder);
	const second = await serve({ folder, port: 0, nowMs: () => 0, notice: () => {} });
	expect(second).toMatchObject({ ok: false, words: expect.stringContaining('already serves') });
	expect((await fetch(`${first.address}/api/sets`)).status).toBe(200);
	await first.stop();
	running.pop();
	await start(folder);
});

test('a damaged database is refused in plain words and left as it is', async () => {
	const folder = newFolder();
	const damaged = 'this is no database at all, and it is long enough to be read as a page of one'.repeat(20);
	writeFileSync(join(folder, 'peakwright.sqlite'), damaged);
	const server = await serve({ folder, port: 0, nowMs: () => 0, notice: () => {} });
	expect(server).toMatchObject({ ok: false, words: expect.stringContaining('Nothing was changed') });
	expect(readFileSync(join(folder, 'peakwright.sqlite'), 'utf8')).toBe(damaged);
});

test('a port in use gives way to the next free one, with a word', async () => {
	const first = await start();
	const port = Number(new URL(first.address).port);
	const said: string[] = [];
	const second = await serve({ folder: newFolder(), port, nowMs: () => 0, notice: (words) => said.push(words) });
	if (!second.ok) throw new Error(second.words);
	running.push(second.value);
	expect(second.value.address).not.toBe(first.address);
	expect(said[0]).toMatch(/is in use; taking/);
});

test('the printed sheet of a set is served as a PDF, and what cannot be made is said', async () => {
	const { address } = await start();
	const sheet = await fetch(`${address}/api/sets/thistlemoor-tm-517/sheet.pdf?paper=Letter&words=UK`);
	expect(sheet.status).toBe(200);
	expect(sheet.headers.get('content-type')).toBe('application/pdf');
	expect(
		Buffer.from(await sheet.arrayBuffer())
			.subarray(0, 5)
			.toString(),
	).toBe('%PDF-');
	for (const [path, status, words] of [
		['nobody/sheet.pdf', 404, 'no such set'],
		['thistlemoor-tm-517/sheet.pdf?paper=A5', 422, 'give A4 or Letter'],
		['thistlemoor-tm-517/sheet.pdf?meter=ear', 422, 'give "tone" or'],
	] as const) {
		const refused = await fetch(`${address}/api/sets/${path}`);
		expect(refused.status).toBe(status);
		expect(((await refused.json()) as { fault: string }).fault).toContain(words);
	}
});

test('a hostile name in an address reaches no header and no file', async () => {
	const { address } = await start();
	for (const name of ['../../<b>"\r\nSet-Cookie: x', '..\\..\\windows', '\u0000', '%', 'x'.repeat(5000)]) {
		const refused = await fetch(`${address}/api/sets/${encodeURIComponent(name)}/sheet.pdf`);
		expect([404, 431]).toContain(refused.status);
		expect(refused.headers.get('set-cookie')).toBeNull();
	}
	const sheet = await fetch(`${address}/api/sets/thistlemoor-tm-517/sheet.pdf?paper=A4`);
	expect(sheet.headers.get('content-disposition')).toMatch(/^inline; filename="[a-z0-9-]+\.pdf"$/);
});
