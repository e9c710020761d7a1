import { PassThrough } from 'node:stream';
import { expect, test } from 'vitest';
import { InputFault } from './command.ts';
import { TerminalPerson } from './terminal-person.ts';

function terminal(): { person: TerminalPerson; typed: PassThrough } {
	const typed = Object.assign(new PassThrough(), { isTTY: true, setRawMode: () => undefined });
	const shown = Object.assign(new PassThrough(), { isTTY: true });
	return { person: new TerminalPerson(typed as unknown as NodeJS.ReadStream, shown), typed };
}

test('questions are answered one after the other', async () => {
	const { person, typed } = terminal();
	for (const words of ['yes', '0.4 V']) {
		const answer = person.ask('Is it? ');
		typed.write(`${words}\n`);
		expect(await answer).toBe(words);
	}
});

test.each([
	['Ctrl-C', (typed: PassThrough) => typed.write('\u0003')],
	['the end of the input', (typed: PassThrough) => typed.end()],
])('a question is left by %s, and the work with it', async (_, leave) => {
	const { person, typed } = terminal();
	const answer = person.ask('Is it? ');
	leave(typed);
	await expect(answer).rejects.toThrow(InputFault);
});

test('where there is no terminal nobody is asked', () => {
	const piped = new PassThrough() as unknown as NodeJS.ReadStream;
	expect(() => new TerminalPerson(piped, new PassThrough())).toThrow(/at a terminal/);
});
