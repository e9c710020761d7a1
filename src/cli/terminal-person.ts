import { createInterface } from 'node:readline/promises';
import { InputFault } from './command.ts';

/** The person at the terminal, who is asked before and while a real set is worked on. */
export class TerminalPerson {
	readonly #input: NodeJS.ReadStream;
	readonly #output: NodeJS.WritableStream;

	/** @throws InputFault where nobody can be asked */
	constructor(input: NodeJS.ReadStream, output: NodeJS.WritableStream) {
		if (input.isTTY !== true)
			throw new InputFault('questions have to be answered before a real set is swept: run this at a terminal');
		this.#input = input;
		this.#output = output;
	}

	/**
	 * The line that is typed as an answer. The terminal is held for the question alone: Ctrl-C between two stops the program.
	 * @throws InputFault when the question is left by Ctrl-C or by the end of the input
	 */
	ask = async (question: string): Promise<string> => {
		const lines = createInterface({ input: this.#input, output: this.#output });
		const left = new Promise<never>((_, reject) => {
			lines.once('close', () => reject(new InputFault('stopped at a question; what was read is kept in the run')));
		});
		try {
			return await Promise.race([lines.question(question), left]);
		} finally {
			lines.close();
		}
	};
}
