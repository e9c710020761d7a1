import { createServer, type Socket } from 'node:net';
import { setTimeout as wait } from 'node:timers/promises';
import type { ScpiPanel } from '#instruments/virtual/scpi-panel.ts';
import type { Parsed } from '#record/parsed.ts';

/** Longest line that a panel takes, bytes. */
const longestLine = 4096;
const mostConnections = 8;

/** A panel that answers on a port. */
export interface PanelServer {
	readonly port: number;
	stop(): Promise<void>;
}

/** Cuts what came into lines; one too long is noted as an error and left out. */
function lineReader(panel: ScpiPanel, take: (line: string) => void): (bytes: Buffer) => void {
	let held = '';
	let isOverrun = false;
	return (bytes) => {
		held += bytes.toString('latin1');
		for (let end = held.indexOf('\n'); end >= 0; end = held.indexOf('\n')) {
			if (!isOverrun) take(held.slice(0, end).trim());
			isOverrun = false;
			held = held.slice(end + 1);
		}
		if (held.length <= longestLine) return;
		if (!isOverrun) panel.note(-363);
		isOverrun = true;
		held = '';
	};
}

/** Serves a panel as raw SCPI over TCP on the loopback address, one line at a time, whoever sent it. */
export function servePanel(panel: ScpiPanel, port: number): Promise<Parsed<PanelServer>> {
	let last: Promise<unknown> = Promise.resolve();
	const sockets = new Set<Socket>();
	const answer = async (line: string, socket: Socket): Promise<void> => {
		if (socket.destroyed) return;
		const { reply, tookMs } = panel.line(line);
		if (reply === null) return;
		if (tookMs > 0) await wait(tookMs);
		if (!socket.destroyed) socket.write(`${reply}\n`, 'latin1');
	};
	const server = createServer({ noDelay: true }, (socket) => {
		sockets.add(socket);
		socket.on('close', () => sockets.delete(socket));
		socket.on('error', () => socket.destroy());
		socket.on(
			'data',
			lineReader(panel, (line) => {
				last = last.then(() => answer(line, socket));
			}),
		);
	});
	server.maxConnections = mostConnections;
	return new Promise((resolve) => {
		server.once('error', (error: NodeJS.ErrnoException) =>
			resolve({ ok: false, words: `port ${port} cannot be used: ${error.code}; give another with --scpi-port` }),
		);
		server.listen(port, '127.0.0.1', () => {
			const address = server.address();
			resolve({
				ok: true,
				value: {
					port: typeof address === 'object' && address ? address.port : port,
					stop: async () => {
						for (const socket of sockets) socket.destroy();
						await new Promise<void>((done) => server.close(() => done()));
						await last;
					},
				},
			});
		});
	});
}
