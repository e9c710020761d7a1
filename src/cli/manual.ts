import type { Command } from './command.ts';
import { writtenOption } from './command-help.ts';
import { optionsOf } from './command-option.ts';

/** Text that stays text in a manual page. */
const plain = (text: string): string =>
	text
		.replaceAll('\\', '\\e')
		.replaceAll('-', '\\-')
		.replace(/^(['.])/, '\\&$1');

const inBold = (text: string): string => `\\fB${plain(text)}\\fR`;

function commandSection(command: Command): string[] {
	return [
		`.SS ${plain(command.name)}`,
		plain(`${command.summary}.`),
		'.PP',
		`${inBold(`peakwright ${command.name}`)} ${plain(command.usage)}`.trimEnd(),
		...optionsOf(command).flatMap((option) => ['.TP', inBold(writtenOption(option)), plain(option.words)]),
		...command.examples.flatMap((example) => ['.PP', '.nf', `.RS\n${plain(example)}\n.RE`, '.fi']),
	];
}

/** The manual page of the program, section 1, in the language of man(7). */
export function manualPage(commands: readonly Command[], version: string): string {
	return [
		`.TH PEAKWRIGHT 1 "" "Peakwright ${plain(version)}" "User Commands"`,
		'.SH NAME',
		'peakwright \\- aligns antique superheterodyne radios',
		'.SH SYNOPSIS',
		'.B peakwright',
		'.I COMMAND',
		'[options]',
		'.SH DESCRIPTION',
		plain(
			'A set card says what is known of a receiver; from it come the alignment sheet, the bench with its gates, needle and coach, and a journal of every reading. "peakwright start" opens the page; what needs no person is a command.',
		),
		'.PP',
		plain(
			'Quantities carry their unit as the trade writes it (455kc, 1.4Mc, 365mmf, 0.05mfd, 240uH, 4k7); a bare number is refused.',
		),
		'.SH COMMANDS',
		...commands.flatMap(commandSection),
		'.SH "EXIT STATUS"',
		'.TP\n.B 0\nDone.',
		`.TP\n.B 2\n${plain('The input cannot be used; one line on standard error says why.')}`,
		'.TP\n.B 1\nThe program failed.',
		'.SH FILES',
		plain(
			'Sets and runs are kept in the data folder: $XDG_DATA_HOME/peakwright or ~/.local/share/peakwright; another is given by --data.',
		),
		'.SH CAUTION',
		plain(
			'An antique set can kill. Isolate it, prove it dead before a hand goes in, and defer to local codes and licensed practice.',
		),
		'',
	].join('\n');
}

const cell = (text: string): string => text.replaceAll('|', '\\|');

/** The reference of commands as one page of the documentation. */
export function commandsPage(commands: readonly Command[]): string {
	const sections = commands.map((command) =>
		[
			`## ${command.name}`,
			'',
			`${command.summary.slice(0, 1).toUpperCase()}${command.summary.slice(1)}.`,
			'',
			'```',
			`npx peakwright ${command.name} ${command.usage}`.trimEnd(),
			'```',
			...(Object.keys(command.options).length > 0
				? [
						'',
						'| option | meaning |',
						'| --- | --- |',
						...optionsOf(command).map((option) => `| \`${cell(writtenOption(option))}\` | ${cell(option.words)} |`),
					]
				: []),
			...(command.examples.length > 0 ? ['', 'Examples:', '', '```', ...command.examples, '```'] : []),
		].join('\n'),
	);
	return [
		'# Commands',
		'',
		'Written by `npm run docs` from the table of commands; `npx peakwright COMMAND --help` says the same.',
		'',
		'Quantities carry their unit as the trade writes it: `455kc`, `1.4Mc`, `365mmf`, `0.05mfd`, `240uH`, `4k7`. A bare number is refused. A value that begins with a minus is joined by an equals sign: `--reading=-12dB`.',
		'With `--json` a command prints one JSON object and nothing else: SI units, named at the end of each key; an estimate is `{ "value": x, "uncertainty": u }`, one standard deviation.',
		'Exit status: 0 done; 2 the input cannot be used, and one line on standard error says what, where and what to give instead; 1 the program failed.',
		'',
		sections.join('\n\n'),
		'',
	].join('\n');
}
