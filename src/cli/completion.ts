import type { Command } from './command.ts';
import { type CommandOption, firstWords, optionsOf } from './command-option.ts';

/** Shells whose completion can be written. */
export const shells = ['bash', 'zsh', 'fish'] as const;
export type Shell = (typeof shells)[number];

const quoted = (text: string): string => `'${text.replaceAll("'", "'\\''")}'`;

/** Choices of one word: those with a space have to be quoted when they are typed, and are left to the person. */
const plainChoices = ({ choices }: CommandOption): readonly string[] => choices.filter((word) => !word.includes(' '));

function bash(commands: readonly Command[]): string {
	const cases = commands.map((command) => {
		const options = optionsOf(command);
		const values = options
			.filter((option) => plainChoices(option).length > 0)
			.map((option) => `\t\t--${option.name}) words=${quoted(plainChoices(option).join(' '))} ;;`);
		const taking = options.filter(({ value, isFile }) => value !== null && !isFile).map(({ name }) => `--${name}`);
		return [
			`\t${command.name})`,
			`\t\tcase $before in`,
			...values,
			...(taking.length > 0 ? [`\t\t${taking.join('|')}) return ;;`] : []),
			`\t\t*) words=${quoted([...firstWords(command), ...options.map(({ name }) => `--${name}`), '--help'].join(' '))} ;;`,
			`\t\tesac ;;`,
		].join('\n');
	});
	return [
		'# Completion of peakwright for bash.',
		'_peakwright() {',
		'\tlocal word=$2 before=$3 words=',
		'\tCOMPREPLY=()',
		'\tif [ "$COMP_CWORD" -eq 1 ]; then',
		`\t\tCOMPREPLY=($(compgen -W ${quoted([...commands.map(({ name }) => name), '--help', '--version'].join(' '))} -- "$word"))`,
		'\t\treturn',
		'\tfi',
		`\tcase \${COMP_WORDS[1]} in`,
		...cases,
		'\tesac',
		'\tCOMPREPLY=($(compgen -W "$words" -- "$word"))',
		'}',
		'complete -o bashdefault -o default -F _peakwright peakwright',
	].join('\n');
}

/** Words inside an argument of _arguments, whose own marks are escaped. */
const zshWords = (text: string): string => text.replaceAll(/[[\]:\\]/g, (mark) => `\\${mark}`);

function zshOption(option: CommandOption): string {
	const head = `--${option.name}[${zshWords(option.words)}]`;
	if (option.value === null) return quoted(head);
	const choices = option.choices.map((word) => word.replaceAll(' ', '\\ '));
	const action = choices.length > 0 ? `(${choices.join(' ')})` : option.isFile ? '_files' : ' ';
	return quoted(`*${head}:${zshWords(option.value)}:${action}`);
}

function zsh(commands: readonly Command[]): string {
	const cases = commands.map((command) => {
		const first = firstWords(command);
		const rest = first.length > 0 ? [quoted(`1:what:(${first.join(' ')})`)] : [];
		return `\t${command.name}) _arguments ${[...optionsOf(command).map(zshOption), ...rest, quoted('*:file:_files')].join(' ')} ;;`;
	});
	return [
		'#compdef peakwright',
		'# Completion of peakwright for zsh.',
		'_peakwright() {',
		'\tif (( CURRENT == 2 )); then',
		'\t\tlocal -a commands',
		`\t\tcommands=(${commands.map(({ name, summary }) => quoted(`${name}:${zshWords(summary)}`)).join(' ')})`,
		"\t\t_describe 'command' commands",
		'\t\treturn',
		'\tfi',
		'\tlocal command=$words[2]',
		`\twords=("\${words[@]:1}")`,
		'\t(( CURRENT-- ))',
		'\tcase $command in',
		...cases,
		'\tesac',
		'}',
		'compdef _peakwright peakwright',
	].join('\n');
}

function fish(commands: readonly Command[]): string {
	const lines = commands.flatMap((command) => {
		const inside = `-n '__fish_seen_subcommand_from ${command.name}'`;
		return [
			`complete -c peakwright -n __fish_use_subcommand -f -a ${command.name} -d ${quoted(command.summary)}`,
			...firstWords(command).map((word) => `complete -c peakwright ${inside} -f -a ${word}`),
			...optionsOf(command).map(({ name, value, words, choices, isFile }) => {
				const takes =
					value === null
						? ''
						: choices.length > 0
							? ` -x -a ${quoted(choices.map((word) => (word.includes(' ') ? `"${word}"` : word)).join(' '))}`
							: isFile
								? ' -r -F'
								: ' -x';
				return `complete -c peakwright ${inside} -l ${name}${takes} -d ${quoted(words)}`;
			}),
		];
	});
	return ['# Completion of peakwright for fish.', ...lines].join('\n');
}

/** What a shell has to read so that it completes the commands and options of this program. */
export function completionScript(shell: Shell, commands: readonly Command[]): string {
	return { bash, zsh, fish }[shell](commands);
}
