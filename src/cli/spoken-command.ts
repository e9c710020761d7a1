import { type Language, languageNamed } from '#record/language.ts';
import { frequencySpellings } from '#record/quantity.ts';
import { type Command, type CommandInput, type CommandOutput, InputFault } from './command.ts';
import { optionsOf } from './command-option.ts';

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

/** What stays as it is where a refusal speaks of it: what was typed, what the refusal quotes, and what the command itself calls its options and their choices. */
function keptIn(refusal: string, command: SpokenCommand, { positionals, inOrder }: CommandInput): readonly string[] {
	const typed = inOrder
		.filter(({ name }) => name in command.options)
		.flatMap(({ value }) => [value, ...value.split('=')]);
	const choices = optionsOf(command).flatMap((option) => option.choices);
	return [...positionals, ...typed, ...choices, ...(refusal.match(/"[^"]*"|--[a-z-]+/g) ?? []), frequencySpellings];
}

/** A command with the options that choose its words and units, the last before `--json`; American words and kilocycles unless they say otherwise. What it refuses is said in them too. */
export function spokenCommand(command: SpokenCommand): Command {
	const { json, ...options } = command.options;
	const text = { type: 'string' } as const;
	return {
		...command,
		usage: json ? command.usage.replace(' [--json]', ` ${usage} [--json]`) : `${command.usage} ${usage}`,
		options: { ...options, words: text, units: text, ...(json ? { json } : {}) },
		run(input, output) {
			const language = languageIn(input);
			const refuse = (error: unknown): never => {
				if (!(error instanceof InputFault)) throw error;
				throw new InputFault(language.term(error.message, keptIn(error.message, command, input)));
			};
			try {
				return command.run(input, output, language)?.catch(refuse);
			} catch (error) {
				return refuse(error);
			}
		},
	};
}
