import { runCommandLine } from './main.ts';

process.exitCode = await runCommandLine(process.argv.slice(2));
