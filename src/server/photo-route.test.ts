import { mkdtempSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import sharp from 'sharp';
import { afterEach, expect, test } from 'vitest';
import type { Photo } from '#record/photo.ts';
import { photoFile } from '../../test/photo-file.ts';
import { provedRun } from '../../test/proved-run.ts';
import { type RunningServer, serve } from './serve.ts';

const running: RunningServer[] = [];
afterEach(async () => {
	for (const server of running.splice(0)) await server.stop();
});

const set = 'thistlemoor-tm-517';

async function start(nowMs = Date.UTC(2026, 2, 1, 8)): Promise<string> {
	const folder = mkdtempSync(join(tmpdir(), 'peakwright-photos-'));
	const server = await serve({ folder, port: 0, nowMs: () => nowMs, notice: () => {} });
	if (!server.ok) throw new Error(server.words);
	running.push(server.value);
	return `${server.value.address}/api`;
}

const post = (address: string, file: Uint8Array) =>
	fetch(address, { method: 'POST', body: new Uint8Array(file) as Uint8Array<ArrayBuffer> });
const send = (address: string, method: string, body: unknown) =>
	fetch(address, { method, body: JSON.stringify(body), headers: { 'Content-Type': 'application/json' } });
const faultOf = async (answer: Response): Promise<string> => ((await answer.json()) as { fault: string }).fault;
const photosOf = async (api: string): Promise<Photo[]> =>
	((await (await fetch(`${api}/sets/${set}/photos`)).json()) as { photos: Photo[] }).photos;

async function addedPhoto(api: string, seed = 1): Promise<Photo> {
	const answer = await post(`${api}/sets/${set}/photos`, await photoFile(800, 600, seed));
	expect(answer.status).toBe(201);
	return ((await answer.json()) as { photo: Photo }).photo;
}

test('a photograph is kept with its set, described, shown as a plain JPEG, and taken away', async () => {
	const api = await start();
	const { id, widthPx, heightPx } = await addedPhoto(api);
	expect([widthPx, heightPx]).toEqual([800, 600]);
	const words = {
		view: 'under',
		moment: 'before',
		caption: 'As it came in \u202eedispu\u202c \u{1f4fb}',
		places: [{ adjuster: 'if1-primary', x: 0.25, y: 0.5 }],
	};
	expect((await send(`${api}/photos/${id}`, 'PUT', words)).status).toBe(200);
	expect(await photosOf(api)).toMatchObject([{ id, ...words }]);
	const picture = await fetch(`${api}/photos/${id}/picture.jpg`);
	expect(picture.headers.get('content-type')).toBe('image/jpeg');
	expect(picture.headers.get('x-content-type-options')).toBe('nosniff');
	expect(await sharp(await picture.arrayBuffer()).metadata()).toMatchObject({ format: 'jpeg', width: 800 });
	for (const wrong of [
		{ ...words, caption: 'x'.repeat(500) },
		{ ...words, places: [{ adjuster: 'a', x: 2, y: 0 }] },
		{},
	])
		expect(await faultOf(await send(`${api}/photos/${id}`, 'PUT', wrong))).toMatch(/^cannot keep this/);
	expect((await fetch(`${api}/photos/${id}`, { method: 'DELETE' })).status).toBe(200);
	expect(await photosOf(api)).toEqual([]);
	expect((await fetch(`${api}/photos/${id}/picture.jpg`)).status).toBe(404);
	expect((await send(`${api}/photos/${id}`, 'PUT', words)).status).toBe(404);
});

test('a photograph of 100 megabytes, of no photograph at all, or of no set is refused and nothing is kept', async () => {
	const api = await start();
	const large = await post(`${api}/sets/${set}/photos`, Buffer.alloc(100_000_000, 0xff)).catch(() => null);
	// A server that stops listening half way may be heard by the sender as a broken line.
	if (large !== null) expect(await faultOf(large)).toMatch(/^this file has more than 40 megabytes/);
	const drawing = await post(`${api}/sets/${set}/photos`, Buffer.from('<svg xmlns="http://www.w3.org/2000/svg"/>'));
	expect(drawing.status).toBe(422);
	expect(await faultOf(drawing)).toMatch(/^this is a drawing/);
	expect(await faultOf(await post(`${api}/sets/nobody/photos`, await photoFile(40, 30)))).toMatch(/^there is no set/);
	expect(await photosOf(api)).toEqual([]);
});

test('a set with run, photographs and report goes to another program as one file, and its report is the same there', async () => {
	const [here, there] = [await start(), await start()];
	await send(`${here}/runs/proved-run/entries`, 'POST', { entries: await provedRun() });
	for (const seed of [1, 2]) await addedPhoto(here, seed);
	const archive = Buffer.from(await (await fetch(`${here}/sets/${set}/archive.zip`)).arrayBuffer());
	const taken = await post(`${there}/archive`, archive);
	expect(await taken.json()).toMatchObject({ sets: 1, photos: 2, entries: (await provedRun()).length });
	expect(await photosOf(there)).toEqual(await photosOf(here));
	expect(Buffer.from(await (await fetch(`${there}/sets/${set}/archive.zip`)).arrayBuffer()).equals(archive)).toBe(true);
	expect(await faultOf(await post(`${there}/archive`, archive.subarray(0, 5000)))).toMatch(/cut short, damaged/);
});

test('the report and the sheet carry the photographs; one of before the work belongs to the run that followed it', async () => {
	const api = await start();
	const entries = await provedRun();
	await send(`${api}/runs/proved-run/entries`, 'POST', { entries });
	const earlier = { ...entries[0], id: 'x', run: 'earlier', atMs: Date.UTC(2025, 0, 1) };
	await send(`${api}/runs/earlier/entries`, 'POST', { entries: [earlier] });
	const bytes = async (path: string) => (await (await fetch(`${api}/${path}`)).arrayBuffer()).byteLength;
	const [report, sheet] = [await bytes('runs/proved-run/report.pdf'), await bytes(`sets/${set}/sheet.pdf`)];
	const old = await bytes('runs/earlier/report.pdf');
	const { id } = await addedPhoto(api);
	const words = { view: 'top', caption: '', places: [] };
	await send(`${api}/photos/${id}`, 'PUT', { ...words, moment: 'before' });
	const withPhoto = await bytes('runs/proved-run/report.pdf');
	expect(withPhoto).toBeGreaterThan(report + 20_000);
	expect(await bytes('runs/earlier/report.pdf')).toBeLessThan(old + 20_000);
	expect(await bytes(`sets/${set}/sheet.pdf`)).toBeLessThan(sheet + 20_000);
	await send(`${api}/photos/${id}`, 'PUT', {
		...words,
		moment: 'any time',
		places: [{ adjuster: 'if1-primary', x: 0.1, y: 0.9 }],
	});
	expect(await bytes(`sets/${set}/sheet.pdf`)).toBeGreaterThan(sheet + 20_000);
});
