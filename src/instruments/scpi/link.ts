import { connect } from 'node:net';
import type { Parsed } from '#record/parsed.ts';
import { shownWords } from '#record/shown-words.ts';

/** A way to an instrument, open. */
export interface Link {
	send(bytes: string): void;
	onBytes(take: (bytes: Uint8Array) => void): void;
	/** Told once, however it ended. */
	onEnd(ended: (words: string) => void): void;
	close(): void;
}

/** Where an instrument is: a TCP port that takes raw SCPI, or a serial port. */
export type InstrumentAddress =
	| { readonly kind: 'network'; readonly host: string; readonly port: number }
	| { readonly kind: 'serial'; readonly path: string; readonly baud: number };

/** Customary port of raw SCPI over TCP: common practice. */
const customaryPort = 5025;
const usualBaud = 9600;
const openWithinMs = 3000;

/**
 * The address in what a person typed: `192.168.1.20`, `192.168.1.20:5025`, `[::1]:5025`, or `serial:/dev/ttyUSB0`.
 * @param baud of a serial port; `null`: 9600
 */
export function instrumentAddress(words: string, baud: number | null): Parsed<InstrumentAddress> {
	const serial = /^serial:(\S+)$/.exec(words);
	if (serial) return { ok: true, value: { kind: 'serial', path: serial[1] as string, baud: baud ?? usualBaud } };
	const [, bracketed, plain, digits] = /^(?:\[([0-9a-fA-F:.]+)\]|([A-Za-z0-9._-]+))(?::(\d{1,5}))?$/.exec(words) ?? [];
	const host = bracketed ?? plain;
	const port = digits === undefined ? customaryPort : Number(digits);
	if (host === undefined || port < 1 || port > 65_535)
		return {
			ok: false,
			words: `cannot read the place of an instrument from "${shownWords(words, 60)}": give HOST, HOST:PORT or serial:PATH, such as 192.168.1.20:5025`,
		};
	return { ok: true, value: { kind: 'network', host, port } };
}

/** The address as words. */
export function addressWords(address: InstrumentAddress): string {
	return address.kind === 'serial' ? address.path : `${address.host}:${address.port}`;
}

function networkLink(host: string, port: number): Promise<Link> {
	return new Promise((resolve, reject) => {
		const socket = connect({ host, port, noDelay: true });
		let ended: ((words: string) => void) | null = null;
		let words = 'it closed the connection';
		const late = setTimeout(
			() => socket.destroy(new Error(`no connection within ${openWithinMs / 1000} s`)),
			openWithinMs,
		);
		socket.on('error', (error) => {
			words = error.message;
			reject(error);
		});
		socket.on('close', () => {
			clearTimeout(late);
			reject(new Error(words));
			ended?.(words);
		});
		socket.once('connect', () => {
			clearTimeout(late);
			resolve({
				send: (bytes) => socket.write(bytes, 'latin1'),
				onBytes: (take) => socket.on('data', take),
				onEnd: (told) => {
					ended = told;
				},
				close: () => socket.destroy(),
			});
		});
	});
}

/** Serial ports are rare on a bench: their package is opened only when one is named. */
async function serialLink(path: string, baudRate: number): Promise<Link> {
	const { SerialPort } = await import('serialport').catch(() => {
		throw new Error('the package "serialport" is not installed: run npm install serialport');
	});
	const port = new SerialPort({ path, baudRate, autoOpen: false });
	await new Promise<void>((resolve, reject) => port.open((error) => (error ? reject(error) : resolve())));
	let words = 'the serial port was closed';
	port.on('error', (error) => {
		words = error.message;
		port.destroy();
	});
	return {
		send: (bytes) => port.write(bytes, 'latin1'),
		onBytes: (take) => port.on('data', take),
		onEnd: (told) => port.once('close', () => told(words)),
		close: () => port.destroy(),
	};
}

/** Opens the way to an instrument; rejects with what went wrong. */
export function openLink(address: InstrumentAddress): Promise<Link> {
	return address.kind === 'network' ? networkLink(address.host, address.port) : serialLink(address.path, address.baud);
}
