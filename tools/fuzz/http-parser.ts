/** The server's routes under whatever is sent to them: the whole program but its socket, on a data folder of its own. */

import { mkdtempSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { application } from '../../src/server/application.ts';
import { HostBench } from '../../src/server/host-bench.ts';
import { sqliteAlbum } from '../../src/storage/album.ts';
import { sqliteShelf } from '../../src/storage/shelf.ts';
import { sqliteJournal } from '../../src/storage/sqlite-journal.ts';
import { openStore } from '../../src/storage/store.ts';
import { exampleText } from '../../test/example-set.ts';
import { type FuzzedParser, holds, textOf } from './parser.ts';

const card = exampleText();
const entry = { id: 'e1', run: 'r1', order: 0, atMs: 1, what: { kind: 'note', text: 'a note' } };

async function server(): Promise<(request: Request) => Promise<Response>> {
	const store = await openStore(mkdtempSync(join(tmpdir(), 'peakwright-fuzz-')), 0);
	if (!store.ok) throw new Error(store.words);
	const journal = sqliteJournal(store.value);
	const mark = { markOn: async () => {}, seenOff: async () => {} };
	const host = new HostBench({ journal, nowMs: () => 0, newId: () => 'x', waitMs: async () => {}, awayMs: 1000, mark });
	const app = application(
		{
			store: store.value,
			shelf: sqliteShelf(store.value),
			journal,
			album: sqliteAlbum(store.value),
			nowMs: () => 0,
			host,
		},
		'dist/page',
	);
	return async (request) => app.fetch(request);
}

let serving: ReturnType<typeof server> | null = null;
const own = { host: '127.0.0.1:4550' } as const;

/** The path as the routes may read it; one with a sign that is wrongly written stays as it is. */
function plainly(path: string): string {
	return path.replace(/(%[0-9a-f]{2})+/gi, (signs) => {
		try {
			return decodeURIComponent(signs);
		} catch {
			return signs;
		}
	});
}

/** A request written as one: a line with method and path, lines of headers, an empty line, the body. */
function requestOf(text: string): Request | null {
	const [head = '', ...body] = text.split('\n\n');
	const [first = '', ...lines] = head.split('\n');
	const [, method = 'GET', path = '/'] = /^([A-Z]+) (\S*)/.exec(first) ?? [];
	const headers = new Headers(own);
	try {
		for (const line of lines) {
			const colon = line.indexOf(':');
			if (colon > 0) headers.set(line.slice(0, colon), line.slice(colon + 1));
		}
		// Instruments are not spoken to here: what a request asks of them is tried by itself.
		if (/host/i.test(plainly(path))) return null;
		return new Request(`http://127.0.0.1:4550${path.startsWith('/') ? path : `/${path}`}`, {
			method,
			headers,
			...(method === 'GET' || method === 'HEAD' ? {} : { body: body.join('\n\n') }),
		});
	} catch {
		// Not a request that the platform would hand on.
		return null;
	}
}

const httpParser: FuzzedParser = {
	name: 'http',
	form: 'bytes',
	begins: [
		'GET /api/sets',
		'GET /',
		'GET /api/runs?set=one',
		'GET /api/runs/r1/entries?from=0',
		'GET /api/runs/r1/standing',
		'GET /api/sets/thistlemoor-tm-517/sheet.pdf?paper=A5',
		'GET /assets/../../package.json',
		'GET /%2e%2e/%2e%2e/etc/passwd',
		`POST /api/sets\ncontent-type: application/json\n\n${card}`,
		`PUT /api/sets/thistlemoor-tm-517\ncontent-type: application/json\n\n${card}`,
		`POST /api/runs/r1/entries\ncontent-type: application/json\norigin: http://127.0.0.1:4550\n\n${JSON.stringify({ entries: [entry] })}`,
	],
	words: [
		'GET ',
		'POST ',
		'PUT ',
		'DELETE ',
		'/api/sets',
		'/api/runs',
		'?from=',
		'%',
		'%ff',
		'%2f',
		'..%5c',
		'content-length: 5',
		'origin: http://evil.example',
		'host: evil.example',
		'sec-fetch-site: cross-site',
		'transfer-encoding: chunked',
		'\n\n',
	],
	judge: (input) => judged(requestOf(textOf(input))),
};

/** A request written as JSON, so that its body is changed as JSON. */
function jsonRequestOf(text: string): Request | null {
	let asked: { method?: unknown; path?: unknown; body?: unknown };
	try {
		asked = (JSON.parse(text) ?? {}) as typeof asked;
	} catch {
		return null;
	}
	return requestOf(`${asked.method} ${asked.path}\ncontent-type: application/json\n\n${JSON.stringify(asked.body)}`);
}

const bodiesParser: FuzzedParser = {
	name: 'bodies',
	form: 'json',
	begins: [
		{ method: 'POST', path: '/api/sets', body: JSON.parse(card) },
		{ method: 'PUT', path: '/api/sets/thistlemoor-tm-517', body: JSON.parse(card) },
		{ method: 'POST', path: '/api/runs/r1/entries', body: { entries: [entry, { ...entry, id: 'e2', order: 1 }] } },
	].map((asked) => JSON.stringify(asked)),
	words: ['"POST"', '"PUT"', '"/api/sets"', '"entries":[]'],
	judge: (input) => judged(jsonRequestOf(textOf(input))),
};

export const httpParsers: readonly FuzzedParser[] = [httpParser, bodiesParser];

/** Sends a request and throws where the answer is not as it must be. */
async function judged(request: Request | null): Promise<string> {
	if (request === null) return 'no request';
	serving ??= server();
	const answer = await (await serving)(request);
	const body = await answer.text();
	holds(answer.status < 500, `${answer.status} for ${request.method} ${request.url}: ${body.slice(0, 200)}`);
	holds(!body.includes('root:x:0') && !body.includes('"devDependencies"'), 'a file from outside the page');
	if (answer.status < 400 && request.method !== 'GET') await stillServes(await serving, request);
	if (answer.status >= 400) {
		const { fault } = JSON.parse(body) as { fault?: unknown };
		holds(typeof fault === 'string' && fault.length > 8, `${answer.status} without words: ${body.slice(0, 100)}`);
	} else if (request.method === 'GET')
		holds(
			answer.headers.get('content-security-policy')?.includes("default-src 'none'") === true,
			'an answer without its policy',
		);
	return `${answer.status} ${request.method} ${new URL(request.url).pathname.split('/').slice(0, 3).join('/').slice(0, 40)}`;
}

/** What was taken in does not hinder what is asked after it. */
async function stillServes(send: (request: Request) => Promise<Response>, { url }: Request): Promise<void> {
	const { pathname } = new URL(url);
	const run = /^\/api\/runs\/[^/]+/.exec(pathname)?.[0];
	for (const path of ['/api/sets', '/api/runs', ...(run ? [`${run}/standing`, `${run}/entries`] : [pathname])]) {
		const { status } = await send(new Request(`http://127.0.0.1:4550${path}`, { headers: own }));
		holds(status === 200, `${status} for ${path} after something was kept`);
	}
}
