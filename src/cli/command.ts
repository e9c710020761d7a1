import type { ParseArgsConfig } from 'node:util';

/** Where a command's answers go. */
export interface CommandOutput {
	/** Standard output, one line. */
	line(text: string): void;
	/** Standard error, one line: progress and notices. */
	notice(text: string): void;
}

export interface CommandInput {
	readonly values: Readonly<Record<string, string | boolean | (string | boolean)[] | undefined>>;
	readonly positionals: readonly string[];
	/** Options with a value in the order in which they were given. */
	readonly inOrder: readonly { readonly name: string; readonly value: string }[];
}

/** One terminal command. `run` returns when it is done; it throws InputFault when the person's input cannot be used. */
export interface Command {
	readonly name: string;
	/** One line for the list of commands. */
	readonly summary: string;
	/** What follows the name: `FILE.wav [--tone 400c]`. */
	readonly usage: string;
	readonly examples: readonly string[];
	readonly options: NonNullable<ParseArgsConfig['options']>;
	/** Words that may follow an option, where the usage cannot list them all. */
	readonly choices?: Readonly<Record<string, readonly string[]>>;
	run(input: CommandInput, output: CommandOutput): Promise<void> | void;
}

/** The person's input cannot be used: what, where, and what to give instead, in one line. Ends the program with status 2. */
export class InputFault extends Error {}
