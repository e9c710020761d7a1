import { runCommandLine } from './main.ts';

// A reader that has seen enough (`| head`) closes the pipe: that is no failure.
process.stdout.on('error', (error: NodeJS.ErrnoException) => {
	if (error.code === 'EPIPE') process.exit(0);
	throw error;
});

process.exitCode = await runCommandLine(process.argv.slice(2));
