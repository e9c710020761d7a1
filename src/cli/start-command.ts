import { spawn } from 'node:child_process';
import { platform } from 'node:os';
import { usualDataFolder } from '#server/data-folder.ts';
import { serve } from '#server/serve.ts';
import { type Command, InputFault } from './command.ts';
import { portOption, stopAsked, takesNoMore } from './input.ts';

const usualPort = 4550;

function openInBrowser(address: string): void {
	const [command, ...args] = { win32: ['cmd', '/c', 'start', '', address], darwin: ['open', address] }[
		platform() as string
	] ?? ['xdg-open', address];
	// Without a browser the address on the screen serves as well.
	spawn(command as string, args, { stdio: 'ignore', detached: true })
		.on('error', () => {})
		.unref();
}

export const startCommand: Command = {
	name: 'start',
	summary: 'starts the program and opens its page in the browser',
	usage: '[--port 4550] [--data FOLDER] [--no-open]',
	examples: ['npx peakwright start', 'npx peakwright start --data ./bench-data --no-open'],
	options: { port: { type: 'string' }, data: { type: 'string' }, 'no-open': { type: 'boolean' } },
	async run({ values, positionals }, output) {
		takesNoMore(positionals, 'options only');
		const folder = typeof values.data === 'string' ? values.data : usualDataFolder(process.env);
		const server = await serve({
			folder,
			port: portOption('port', values.port, usualPort),
			nowMs: Date.now,
			notice: output.notice,
		});
		if (!server.ok) throw new InputFault(server.words);
		output.line(`Peakwright is at ${server.value.address} (data in ${folder}). Stop it with Ctrl-C.`);
		if (values['no-open'] !== true) openInBrowser(server.value.address);
		await stopAsked();
		await server.value.stop();
	},
};
