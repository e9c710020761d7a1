import { type Command, InputFault } from './command.ts';
import { completionScript, type Shell, shells } from './completion.ts';

/** The command that prints a shell's completion of all commands, itself among them. */
export function completionCommand(commands: () => readonly Command[]): Command {
	return {
		name: 'completion',
		summary: 'prints what a shell reads to complete commands and options',
		usage: 'bash|zsh|fish',
		examples: [
			'peakwright completion bash > ~/.local/share/bash-completion/completions/peakwright',
			'peakwright completion zsh > ~/.zfunc/_peakwright',
			'peakwright completion fish > ~/.config/fish/completions/peakwright.fish',
		],
		options: {},
		run({ positionals }, output) {
			const [shell, ...more] = positionals;
			if (!shells.includes(shell as Shell) || more.length > 0)
				throw new InputFault(`give one of ${shells.join(', ')}: npx peakwright completion bash`);
			output.line(completionScript(shell as Shell, commands()));
		},
	};
}
