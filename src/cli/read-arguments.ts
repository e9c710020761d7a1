import { parseArgs } from 'node:util';
import type { Command, CommandInput } from './command.ts';

/**
 * What follows a command's name, by its options.
 * @throws Error with the reason in its first line where the words are no options of it
 */
export function readArguments(args: readonly string[], options: Command['options']): CommandInput {
	const { values, positionals, tokens } = parseArgs({
		args: [...args],
		options,
		allowPositionals: true,
		tokens: true,
	});
	const inOrder = tokens.flatMap((token) =>
		token.kind === 'option' && token.value !== undefined ? [{ name: token.name, value: token.value }] : [],
	);
	return { values, positionals, inOrder };
}
