import type { Command } from './command.ts';
import { type CommandOption, optionsOf } from './command-option.ts';

const longestOption = 28;

/** What an option looks like when it is written. */
export const writtenOption = ({ name, value }: CommandOption): string =>
	value === null ? `--${name}` : `--${name}${value.startsWith('-') ? '=' : ' '}${value}`;

/** The list of commands. */
export function overview(commands: readonly Command[]): string {
	const width = Math.max(...commands.map((command) => command.name.length));
	return [
		'Peakwright aligns antique superheterodyne radios.',
		'',
		'npx peakwright COMMAND [--help]',
		'',
		...commands.map((command) => `  ${command.name.padEnd(width)}  ${command.summary}`),
		'',
		'npx peakwright --version',
		'',
		'Quantities carry their unit: 455kc, 1.4Mc, 365mmf, 0.05mfd, 4k7. Exit status: 0 done, 2 the input cannot be used, 1 the program failed.',
	].join('\n');
}

function optionLines(command: Command): string[] {
	const options = optionsOf(command);
	const width = Math.min(longestOption, Math.max(...options.map((option) => writtenOption(option).length)));
	return options.map((option) => {
		const written = writtenOption(option);
		return written.length > width
			? `  ${written}\n  ${' '.repeat(width)}  ${option.words}`
			: `  ${written.padEnd(width)}  ${option.words}`;
	});
}

/** What `COMMAND --help` says. */
export function commandHelp(command: Command): string {
	const parts = [command.summary, '', `npx peakwright ${command.name} ${command.usage}`.trimEnd()];
	if (Object.keys(command.options).length > 0) parts.push('', ...optionLines(command));
	if (command.examples.length > 0)
		parts.push('', 'Examples:', '', ...command.examples.map((example) => `  ${example}`));
	return parts.join('\n');
}
