import { avcCommand } from './avc-command.ts';
import type { Command } from './command.ts';
import { completionCommand } from './completion-command.ts';
import { dialCommand } from './dial-command.ts';
import { exportCommand, importCommand } from './exchange-commands.ts';
import { findIfCommand } from './find-if-command.ts';
import { generatorCommand } from './generator-command.ts';
import { instrumentCommand } from './instrument-command.ts';
import { partCommand } from './part-command.ts';
import { photoCommand } from './photo-command.ts';
import { rehearseCommand } from './rehearse-command.ts';
import { reportCommand } from './report-command.ts';
import { responseCommand } from './response-command.ts';
import { sheetCommand } from './sheet-command.ts';
import { backupCommand, runsCommand, setsCommand } from './shelf-commands.ts';
import { startCommand } from './start-command.ts';
import { sweepCommand } from './sweep-command.ts';
import { testsCommand } from './tests-command.ts';
import { toneCommand } from './tone-command.ts';
import { trackCommand } from './track-command.ts';
import { troubleCommand } from './trouble-command.ts';
import { virtualCommand } from './virtual-command.ts';
import { whistlesCommand } from './whistles-command.ts';

/** Every terminal command, in the order of the work. */
export const commands: readonly Command[] = [
	startCommand,
	sheetCommand,
	toneCommand,
	trackCommand,
	responseCommand,
	dialCommand,
	troubleCommand,
	findIfCommand,
	whistlesCommand,
	partCommand,
	testsCommand,
	reportCommand,
	rehearseCommand,
	avcCommand,
	generatorCommand,
	virtualCommand,
	instrumentCommand,
	sweepCommand,
	setsCommand,
	runsCommand,
	photoCommand,
	exportCommand,
	importCommand,
	backupCommand,
	completionCommand(() => commands),
];
