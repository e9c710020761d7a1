import { shownWords } from '#record/shown-words.ts';
import { packageVersion } from '#server/package-root.ts';
import { type CommandInput, type CommandOutput, InputFault } from './command.ts';
import { commandHelp, overview } from './command-help.ts';
import { commands } from './commands.ts';
import { readArguments } from './read-arguments.ts';

const machine: CommandOutput = {
	line: (text) => process.stdout.write(`${text}\n`),
	notice: (text) => process.stderr.write(`${text}\n`),
};

async function main(args: readonly string[], output: CommandOutput): Promise<void> {
	const [name, ...rest] = args;
	if (name === undefined || name === '--help' || name === '-h' || name === 'help') {
		output.line(overview(commands));
		return;
	}
	if (name === '--version' || name === '-V') {
		output.line(packageVersion());
		return;
	}
	const command = commands.find((candidate) => candidate.name === name);
	if (!command) {
		throw new InputFault(`no command "${name}": give one of ${commands.map((known) => known.name).join(', ')}`);
	}
	let parsed: CommandInput;
	try {
		parsed = readArguments(rest, { ...command.options, help: { type: 'boolean', short: 'h' } });
	} catch (error) {
		throw new InputFault(`${(error as Error).message.split('\n')[0]}; see npx peakwright ${name} --help`);
	}
	if (parsed.values.help === true) output.line(commandHelp(command));
	else await command.run(parsed, output);
}

/** Longest line that is said of an input that cannot be used. */
const longestNotice = 2000;

/** Runs one command line and returns the exit status: 0 done, 2 input cannot be used, 1 the program failed. */
export async function runCommandLine(args: readonly string[], output: CommandOutput = machine): Promise<number> {
	try {
		await main(args, output);
		return 0;
	} catch (error) {
		if (error instanceof InputFault) {
			// A name of a file may hold anything: no sign in it may move the cursor.
			output.notice(shownWords(error.message, longestNotice));
			return 2;
		}
		output.notice(`peakwright failed: ${error instanceof Error ? (error.stack ?? error.message) : String(error)}`);
		return 1;
	}
}
