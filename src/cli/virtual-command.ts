import { tamperedSet } from '#core/receiver/truth.ts';
import { virtualInstruments } from '#instruments/virtual/virtual-instruments.ts';
import { VirtualSet } from '#instruments/virtual/virtual-set.ts';
import { parseSetCard } from '#record/set-card-file.ts';
import { type Command, InputFault } from './command.ts';
import { portOption, readInput, stopAsked, wholeNumber } from './input.ts';
import { servePanel } from './panel-server.ts';
import { designOf, virtualSetPath } from './virtual-set-option.ts';

/** Customary port of raw SCPI over TCP: common practice. */
const customaryPort = 5025;

export const virtualCommand: Command = {
	name: 'virtual',
	summary: "serves a virtual set's generator and meter as SCPI instruments",
	usage: '[--set SET.json] [--seed N] [--scpi-port 5025]',
	examples: [
		'npx peakwright virtual --seed 3',
		"npx peakwright instrument 127.0.0.1:5025 --ask 'MEAS:VOLT:AC?'",
		'npx peakwright instrument 127.0.0.1:5025 --try',
	],
	options: { set: { type: 'string' }, seed: { type: 'string' }, 'scpi-port': { type: 'string' } },
	async run({ values, positionals }, output) {
		if (positionals.length > 0) throw new InputFault(`cannot use "${positionals[0]}": virtual takes options only`);
		const path = virtualSetPath(values.set);
		const card = parseSetCard(readInput(path, 'the path of a set card').toString('utf8'));
		if (!card.ok) throw new InputFault(`${path}: ${card.words}`);
		const seed = wholeNumber('seed', values.seed, 1);
		const set = new VirtualSet(tamperedSet(designOf(card.value, path), seed), seed, null);
		const server = await servePanel(
			virtualInstruments(set, Date.now),
			portOption('scpi-port', values['scpi-port'], customaryPort),
		);
		if (!server.ok) throw new InputFault(server.words);
		output.line(
			`Generator and meter of ${set.design.name} are at 127.0.0.1:${server.value.port}. Stop them with Ctrl-C.`,
		);
		await stopAsked();
		await server.value.stop();
	},
};
