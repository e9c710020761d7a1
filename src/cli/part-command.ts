import { isPartName, partAnswer, partNames } from '#advice/parts/part-request.ts';
import { InputFault } from './command.ts';
import { PartOptions } from './part-options.ts';
import { spokenCommand } from './spoken-command.ts';

/** Parts that are read from words, not from options alone. */
const takingWords = ['pair', 'code'];

const optionNames =
	'if inductance inductance-known strays strays-known trimmer slug fit tolerance series drawer resonances capacitors edges edges-known below width q turns diameter length depth wanted loss impedance shape at resistance capacitance band points gang network other-strays';

export const partCommand = spokenCommand({
	name: 'part',
	summary: 'which part to fit: IF mica, padder, pairs, coils, attenuators, dummy antennas, AVC, colour codes',
	usage: 'mica|padder|pair|coil|attenuator|dummy|avc|code ... [--json]',
	examples: [
		'npx peakwright part mica --if 455kc --inductance 1.1mH --strays 15mmf --trimmer 5mmf-45mmf --tolerance 5%',
		'npx peakwright part padder --if 455kc --band 540kc-1600kc --gang 365mmf --strays 30mmf --tolerance 5%',
		'npx peakwright part padder --if 455kc --band 540kc-1600kc --gang 365mmf --network coil --other-strays 8mmf',
		'npx peakwright part pair 373mmf --drawer 47mmf,100mmf,270mmf',
		'npx peakwright part coil --turns 100 --diameter 30mm --length 40mm --wanted 240uH',
		'npx peakwright part coil --resonances 2Mc@460mmf,4Mc@100mmf --capacitors 1%',
		'npx peakwright part coil --edges 453kc-457kc --below 3dB',
		'npx peakwright part coil --width 12kc --q 80 --inductance 1.1mH --if 455kc',
		'npx peakwright part attenuator --loss 20dB --impedance 50ohm --series E24',
		'npx peakwright part dummy --at 1000kc',
		'npx peakwright part avc --resistance 1M --capacitance 0.1mfd',
		'npx peakwright part code resistor green grey red',
		'npx peakwright part code mica white brown red brown silver red',
	],
	options: {
		...Object.fromEntries(optionNames.split(' ').map((name) => [name, { type: 'string' as const }])),
		json: { type: 'boolean' },
	},
	run({ values, positionals }, output, { say, term }) {
		const [name = '', ...given] = positionals;
		if (!isPartName(name)) throw new InputFault(`no part "${name}": give one of ${partNames.join(', ')}`);
		if (given.length > 0 && !takingWords.includes(name)) {
			throw new InputFault(`cannot use "${given[0]}": part ${name} takes options only; see npx peakwright part --help`);
		}
		const { figures, ...answer } = partAnswer(name, new PartOptions(values), given);
		const cautions = answer.cautions.map((words) => term(words));
		const [sheet, tolerance, source] = [answer.sheetWords, answer.toleranceWords, answer.sourceWords].map((words) =>
			term(words),
		);
		if (values.json === true) {
			output.line(
				JSON.stringify({
					part: name,
					...figures,
					sheet,
					tolerance,
					source,
					cautions,
				}),
			);
			return;
		}
		const lines = answer.lines.map((line) => ({ name: term(line.name), words: term(line.words) }));
		const width = Math.max(...lines.map((line) => line.name.length));
		for (const line of lines) output.line(`${line.name.padEnd(width)}  ${line.words}`);
		output.line('');
		output.line(say`Sheet: ${sheet ?? ''}`);
		output.line(say`Trust: ${tolerance ?? ''}`);
		output.line(say`Source: ${source ?? ''}`);
		for (const caution of cautions) output.line(say`Caution: ${caution}`);
		if (cautions.length > 0) output.line(say`Local codes and licensed practice come first.`);
	},
});
