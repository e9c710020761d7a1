import { parseArgs } from 'node:util';
import { type Command, type CommandOutput, InputFault } from './command.ts';
import { commands } from './commands.ts';

const output: CommandOutput = {
	line: (text) => process.stdout.write(`${text}\n`),
	notice: (text) => process.stderr.write(`${text}\n`),
};

function overview(): string {
	const width = Math.max(...commands.map((command) => command.name.length));
	return [
		'Peakwright aligns antique superheterodyne radios.',
		'',
		'npx peakwright COMMAND [--help]',
		'',
		...commands.map((command) => `  ${command.name.padEnd(width)}  ${command.summary}`),
	].join('\n');
}

function help(command: Command): string {
	return [
		command.summary,
		'',
		`npx peakwright ${command.name} ${command.usage}`.trimEnd(),
		...(command.examples.length > 0 ? ['', ...command.examples.map((example) => `  ${example}`)] : []),
	].join('\n');
}

async function main(args: readonly string[]): Promise<void> {
	const [name, ...rest] = args;
	if (name === undefined || name === '--help' || name === '-h' || name === 'help') {
		output.line(overview());
		return;
	}
	const command = commands.find((candidate) => candidate.name === name);
	if (!command) {
		throw new InputFault(`no command "${name}": give one of ${commands.map((known) => known.name).join(', ')}`);
	}
	let parsed: ReturnType<typeof parseArgs>;
	try {
		parsed = parseArgs({
			args: rest,
			options: { ...command.options, help: { type: 'boolean', short: 'h' } },
			allowPositionals: true,
		});
	} catch (error) {
		throw new InputFault(`${(error as Error).message.split('\n')[0]}; see npx peakwright ${name} --help`);
	}
	if (parsed.values.help === true) output.line(help(command));
	else await command.run(parsed, output);
}

/** Runs one command line and returns the exit status: 0 done, 2 input cannot be used, 1 the program failed. */
export async function runCommandLine(args: readonly string[]): Promise<number> {
	try {
		await main(args);
		return 0;
	} catch (error) {
		if (error instanceof InputFault) {
			output.notice(error.message.replaceAll('\n', ' '));
			return 2;
		}
		output.notice(`peakwright failed: ${error instanceof Error ? (error.stack ?? error.message) : String(error)}`);
		return 1;
	}
}
