import { PartWords } from '#advice/parts/part-words.ts';
import { type CommandInput, InputFault } from './command.ts';
import { readInput } from './input.ts';

/** The options of `part` and `track`; a drawer may be a text file. */
export class PartOptions extends PartWords {
	constructor(values: CommandInput['values']) {
		super(
			values,
			(name) => `--${name}`,
			(words) => new InputFault(words),
		);
	}

	protected override drawerText(words: string): string {
		return /\.(txt|csv)$/i.test(words) ? readInput(words, 'a list or a text file').toString('utf8') : words;
	}
}
