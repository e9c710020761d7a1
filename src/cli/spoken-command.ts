import { type Language, languageNamed } from '#record/language.ts';
import { type Command, type CommandInput, type CommandOutput, InputFault } from './command.ts';

/** A terminal command that is told in which words and units to answer. */
interface SpokenCommand extends Omit<Command, 'run'> {
	run(input: CommandInput, output: CommandOutput, language: Language): Promise<void> | void;
}

const usage = '[--words US|UK] [--units kc|kHz|m]';

const given = (value: unknown): string | undefined => (typeof value === 'string' ? value : undefined);

function languageIn({ values }: CommandInput): Language {
	const language = languageNamed(given(values.words), given(values.units));
	if (!language.ok) throw new InputFault(`--${language.words}`);
	return language.value;
}

/** A command with the options that choose its words and units, the last before `--json`; American words and kilocycles unless they say otherwise. */
export function spokenCommand(command: SpokenCommand): Command {
	const { json, ...options } = command.options;
	const text = { type: 'string' } as const;
	return {
		...command,
		usage: json ? command.usage.replace(' [--json]', ` ${usage} [--json]`) : `${command.usage} ${usage}`,
		options: { ...options, words: text, units: text, ...(json ? { json } : {}) },
		run: (input, output) => command.run(input, output, languageIn(input)),
	};
}
