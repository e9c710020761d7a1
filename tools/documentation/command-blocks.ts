/** Commands in the documentation: each is run, and what it says stands under it. */
import { runCommandLine } from '../../src/cli/main.ts';

/** One command as it was typed, parted into words as a shell does. */
function wordsOf(typed: string): string[] {
	return [...typed.replaceAll('\\\n', ' ').matchAll(/(?:[^\s"']|"[^"]*"|'[^']*')+/g)].map(([word]) =>
		word.replace(/["']/g, ''),
	);
}

async function said(typed: string): Promise<string> {
	const [npx, name, ...args] = wordsOf(typed);
	if (npx !== 'npx' || name !== 'peakwright') throw new Error(`invalid command: ${typed}, expected npx peakwright`);
	const lines: string[] = [];
	const status = await runCommandLine(args, { line: (text) => lines.push(text), notice: (text) => lines.push(text) });
	if (status !== 0) throw new Error(`${typed} failed: ${lines.join('\n')}`);
	return lines.join('\n');
}

/** A block with its commands, each followed by what it says now. */
async function filled(block: string): Promise<string> {
	const commands = [...block.matchAll(/^\$ (?:.*\\\n)*.*$/gm)].map(([typed]) => typed);
	const parts: string[] = [];
	for (const typed of commands) parts.push(`${typed}\n${await said(typed.slice(2))}`.trimEnd());
	return parts.join('\n\n');
}

/** A page whose blocks of kind `console` hold what their commands say now. */
export async function withCommandOutput(page: string): Promise<string> {
	const pieces = page.split(/(^```console\n[\s\S]*?^```$)/m);
	const whole: string[] = [];
	for (const piece of pieces) {
		const block = /^```console\n([\s\S]*?)^```$/m.exec(piece)?.[1];
		whole.push(block === undefined ? piece : `\`\`\`console\n${await filled(block)}\n\`\`\``);
	}
	return whole.join('');
}
