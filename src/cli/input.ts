import { readFileSync, writeFileSync } from 'node:fs';
import { parseQuantity, type QuantityKind } from '#record/quantity.ts';
import { InputFault } from './command.ts';

/** A quantity that a person typed; `where` says at which place. */
export function readQuantity(kind: QuantityKind, where: string, words: string): number {
	const parsed = parseQuantity(kind, words);
	if (!parsed.ok) throw new InputFault(`${where}: ${parsed.words}`);
	return parsed.value;
}

/** The quantity of an option, or `usual` when it was not given. */
export function quantityOption<Usual>(kind: QuantityKind, name: string, given: unknown, usual: Usual): number | Usual {
	return typeof given === 'string' ? readQuantity(kind, `--${name}`, given) : usual;
}

/** The whole number of an option, or what is usual when it was not given. */
export function wholeNumber(name: string, given: unknown, usual: number): number {
	if (given === undefined) return usual;
	if (typeof given !== 'string' || !/^\d{1,9}$/.test(given))
		throw new InputFault(`--${name}: cannot use "${String(given)}": give a whole number such as 7`);
	return Number(given);
}

const whyNot: Readonly<Record<string, string>> = {
	ENOENT: 'there is no such file',
	EISDIR: 'it is a folder',
	EACCES: 'it may not be read',
};

/** What a file holds; `wanted` says what to give when it cannot be opened. */
export function readInput(path: string, wanted: string): Buffer {
	try {
		return readFileSync(path);
	} catch (error) {
		const code = (error as NodeJS.ErrnoException).code ?? '';
		throw new InputFault(`cannot open ${path}: ${whyNot[code] ?? code}; give ${wanted}`);
	}
}

/** Refuses words after those that a command takes; `wanted` says what it takes. */
export function takesNoMore(more: readonly string[], wanted: string): void {
	if (more.length > 0) throw new InputFault(`cannot use "${more[0]}": give ${wanted}`);
}

/** Writes a file that was asked for; an InputFault when its place cannot be used. */
export function writeOutput(path: string, content: string | Uint8Array): void {
	try {
		writeFileSync(path, content);
	} catch (error) {
		throw new InputFault(`cannot write ${path}: ${(error as NodeJS.ErrnoException).code}; give another place`);
	}
}

/** The port of an option, or the usual one. */
export function portOption(name: string, given: unknown, usual: number): number {
	if (given === undefined) return usual;
	const port = Number(given);
	if (!Number.isInteger(port) || port < 0 || port > 65_535)
		throw new InputFault(`--${name}: cannot use "${String(given)}": give a whole number from 0 to 65535`);
	return port;
}

/** Fulfilled when the person stops the program. */
export function stopAsked(): Promise<void> {
	return new Promise((resolve) => {
		process.once('SIGINT', () => resolve());
		process.once('SIGTERM', () => resolve());
	});
}
