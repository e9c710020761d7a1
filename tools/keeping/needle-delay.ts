import { createServer, request, type Server } from 'node:http';
import type { AddressInfo } from 'node:net';
import type { Page } from 'playwright-core';

/** Put before the program's worklet: sends the time beside each frame that ends. */
const stamp =
	'{const post=MessagePort.prototype.postMessage;MessagePort.prototype.postMessage=function(...m){post.call(this,{frameEndMs:Date.now()});return post.apply(this,m);};}\n';

/** Hands on what a program answers, its sound worklet with the stamp before it. */
export function stampingServer(address: string): Promise<{ address: string; server: Server }> {
	const server = createServer((asked, answer) => {
		const isTap = asked.url?.includes('tap-worklet') === true;
		const passed = request(`${address}${asked.url}`, { method: asked.method, headers: asked.headers }, (from) => {
			const { 'content-length': length, ...headers } = from.headers;
			answer.writeHead(from.statusCode ?? 500, isTap || length === undefined ? headers : from.headers);
			if (isTap) answer.write(stamp);
			from.pipe(answer);
		});
		asked.pipe(passed);
	});
	return new Promise((resolve) => {
		server.listen(0, '127.0.0.1', () => {
			resolve({ address: `http://127.0.0.1:${(server.address() as AddressInfo).port}`, server });
		});
	});
}

/** Makes a page set aside when each stamped frame of sound ended and when the needle was painted. */
export async function watchNeedle(page: Page): Promise<void> {
	await page.addInitScript(() => {
		const delaysMs: number[] = [];
		Object.assign(globalThis, { needleDelaysMs: delaysMs });
		let stampedMs: number | null = null;
		/** End of the frame that the page was given last and has not shown yet. */
		let givenMs: number | null = null;
		const plain = Object.getOwnPropertyDescriptor(MessagePort.prototype, 'onmessage');
		Object.defineProperty(MessagePort.prototype, 'onmessage', {
			configurable: true,
			set(this: MessagePort, hear: (event: MessageEvent) => void) {
				plain?.set?.call(this, (event: MessageEvent) => {
					const endMs = (event.data as { frameEndMs?: number } | null)?.frameEndMs;
					if (endMs === undefined) {
						givenMs = stampedMs;
						stampedMs = null;
						hear.call(this, event);
					} else stampedMs = endMs;
				});
			},
		});
		new MutationObserver((changes) => {
			if (givenMs === null || !changes.some(({ target }) => (target as Element).classList?.contains('pointer'))) return;
			const endMs = givenMs;
			givenMs = null;
			// The change is made within a frame of the screen: it is painted when the next task runs.
			const channel = new MessageChannel();
			channel.port1.addEventListener('message', () => delaysMs.push(Date.now() - endMs));
			channel.port1.start();
			channel.port2.postMessage(null);
		}).observe(document, { subtree: true, attributes: true, attributeFilter: ['d'] });
	});
}

/** Delays from the end of a frame of sound to the painted needle, milliseconds, ascending. */
export async function needleDelaysMs(page: Page): Promise<number[]> {
	const delaysMs = await page.evaluate(() => (globalThis as unknown as { needleDelaysMs: number[] }).needleDelaysMs);
	return delaysMs.sort((one, other) => one - other);
}
