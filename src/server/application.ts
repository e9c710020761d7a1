import { readFile } from 'node:fs/promises';
import { extname, join, normalize, sep } from 'node:path';
import { Hono, type HonoRequest } from 'hono';
import { bodyLimit } from 'hono/body-limit';
import { givenPhotoBytes } from '#record/photo.ts';
import { faultWords } from '#storage/fault-words.ts';
import { archivePath } from './archive-route.ts';
import { tooLargePhoto } from './photo-intake.ts';
import { apiRoutes, type House } from './routes.ts';

/** Largest body of a request: a thousand entries, or a set card of the longest kind. */
const largestBodyBytes = 2 * 1024 * 1024;
const usualLimit = bodyLimit({
	maxSize: largestBodyBytes,
	onError: (context) => context.json({ fault: 'this is too large: give at most 2 megabytes' }, 413),
});
const photoLimit = bodyLimit({
	maxSize: givenPhotoBytes,
	onError: (context) => context.json({ fault: tooLargePhoto }, 413),
});

const contentTypes: Readonly<Record<string, string>> = {
	'.html': 'text/html; charset=utf-8',
	'.js': 'text/javascript; charset=utf-8',
	'.css': 'text/css; charset=utf-8',
	'.svg': 'image/svg+xml',
	'.png': 'image/png',
	'.ttf': 'font/ttf',
	'.json': 'application/json',
	'.webmanifest': 'application/manifest+json',
};

const policy = [
	"default-src 'none'",
	"script-src 'self'",
	"worker-src 'self'",
	"style-src 'self'",
	"font-src 'self'",
	"img-src 'self' data:",
	"media-src 'self'",
	"connect-src 'self'",
	"manifest-src 'self'",
	"base-uri 'none'",
	"form-action 'none'",
	"frame-ancestors 'none'",
].join('; ');

/** Names under which this computer's own browser may ask; a name from elsewhere that was bent to this address is refused. */
const ownHost = /^(127\.0\.0\.1|localhost|\[::1\])(:\d+)?$/;

/** Whether a browser says that another site asks. A link from there may open the page, and nothing else. */
function asksFromElsewhere(request: HonoRequest): boolean {
	const site = request.header('sec-fetch-site');
	if (site === undefined || site === 'same-origin' || site === 'none') return false;
	const opensPage = request.header('sec-fetch-mode') === 'navigate' && request.header('sec-fetch-dest') === 'document';
	return request.method !== 'GET' || !opensPage || request.path.startsWith('/api');
}

/** The file of the page at an address; `null` outside the page's folder, or where the address is no text. */
function pageFile(pageFolder: string, address: string): string | null {
	let wanted: string;
	try {
		wanted = normalize(decodeURIComponent(address));
	} catch {
		return null;
	}
	const path = join(pageFolder, wanted === sep ? 'index.html' : wanted);
	return path.startsWith(pageFolder + sep) ? path : null;
}

/** The whole of what the server answers. */
export function application(house: House, pageFolder: string): Hono {
	const server = new Hono();
	server.use(async (context, next) => {
		const host = context.req.header('host') ?? '';
		const origin = context.req.header('origin');
		const foreign =
			!ownHost.test(host) || (origin !== undefined && origin !== `http://${host}`) || asksFromElsewhere(context.req);
		if (foreign) return context.json({ fault: 'this address answers only its own page' }, 403);
		await next();
		context.header('Content-Security-Policy', policy);
		context.header('X-Content-Type-Options', 'nosniff');
		context.header('Referrer-Policy', 'no-referrer');
		context.header('Cross-Origin-Resource-Policy', 'same-origin');
	});
	server.use((context, next) => {
		const { path, method } = context.req;
		// An archive goes to a file as it comes, and is measured there.
		if (path === archivePath) return next();
		return (method === 'POST' && path.endsWith('/photos') ? photoLimit : usualLimit)(context, next);
	});
	server.route('/api', apiRoutes(house));
	server.get('*', async (context) => {
		const path = pageFile(pageFolder, context.req.path);
		if (path === null) return context.json({ fault: 'there is nothing at this address' }, 404);
		try {
			const body = await readFile(path);
			return context.body(new Uint8Array(body), 200, {
				'Content-Type': contentTypes[extname(path)] ?? 'application/octet-stream',
			});
		} catch {
			return context.json({ fault: 'there is nothing at this address' }, 404);
		}
	});
	server.notFound((context) => context.json({ fault: 'there is nothing at this address' }, 404));
	server.onError((error, context) => {
		const done = context.req.method === 'GET' ? 'read' : 'kept';
		return context.json({ fault: `it could not be ${done}: ${faultWords(error)}` }, 503);
	});
	return server;
}
