import { createServer, type Socket } from 'node:net';

/** An instrument that behaves as a script says, on a port of its own. */
export interface ScriptedInstrument {
	readonly port: number;
	/** Every line that was received, in order. */
	readonly heard: readonly string[];
	/** Cuts all connections now. */
	cut(): void;
	stop(): Promise<void>;
}

/** Lets a script answer each line; `connection` counts from 1. */
export function scriptedInstrument(
	answer: (line: string, socket: Socket, connection: number) => void,
): Promise<ScriptedInstrument> {
	const heard: string[] = [];
	const sockets = new Set<Socket>();
	let connections = 0;
	const server = createServer((socket) => {
		const connection = ++connections;
		sockets.add(socket);
		socket.on('close', () => sockets.delete(socket));
		socket.on('error', () => socket.destroy());
		let held = '';
		socket.on('data', (bytes) => {
			held += bytes.toString('latin1');
			const lines = held.split(/\r\n|\n|\r/);
			held = lines.pop() ?? '';
			for (const line of lines) {
				heard.push(line);
				if (!socket.destroyed) answer(line, socket, connection);
			}
		});
	});
	const cut = (): void => {
		for (const socket of sockets) socket.destroy();
	};
	return new Promise((resolve) => {
		server.listen(0, '127.0.0.1', () => {
			resolve({
				port: (server.address() as { port: number }).port,
				heard,
				cut,
				stop: () =>
					new Promise((done) => {
						cut();
						server.close(() => done());
					}),
			});
		});
	});
}
