import { usualOptions } from '#advice/sheet-options.ts';
import { type Fault, faultNamed, namedFaults } from '#core/receiver/faults.ts';
import { tamperedSet } from '#core/receiver/truth.ts';
import type { Language } from '#record/language.ts';
import { decimalWords, voltageWords } from '#record/quantity-words.ts';
import type { SetFigures } from '#rehearsal/judgement.ts';
import { type Rehearsal, rehearse } from '#rehearsal/rehearse.ts';
import { aimOf } from './aim-option.ts';
import { answerRow } from './answer-row.ts';
import { InputFault } from './command.ts';
import { quantityOption, wholeNumber } from './input.ts';
import { sheetFor } from './sheet-file.ts';
import { spokenCommand } from './spoken-command.ts';
import { designOf, virtualSetPath } from './virtual-set-option.ts';

/** A quantity of an option within bounds. */
function within(value: number, least: number, most: number, words: string): number {
	if (!(value >= least && value <= most)) throw new InputFault(words);
	return value;
}

function faultsOf(given: unknown): readonly Fault[] {
	if (given === undefined) return [];
	const fault = faultNamed(String(given));
	if (!fault)
		throw new InputFault(`--fault: no fault "${String(given)}": give one of ${Object.keys(namedFaults).join(', ')}`);
	return [fault];
}

const row = answerRow(12);

function figureLines(
	title: string,
	{ sensitivityV, ifWidth6Hz, asymmetryDb5kHz, dial: errors }: SetFigures,
	{ say, figure, dial }: Language,
): readonly string[] {
	const kilocycles = (hertz: number): string => figure(`${(hertz / 1e3).toFixed(1)} kc`);
	const sensitivity = sensitivityV.map(({ dialHz, v }) =>
		v === null ? say`${dial(dialHz)} over 2 V` : `${dial(dialHz)} ${voltageWords(v)}`,
	);
	const width = ifWidth6Hz === null ? say`not to be had` : say`${kilocycles(ifWidth6Hz)} at 6 dB`;
	const worst = Math.max(...errors.map(({ errorHz }) => Math.abs(errorHz)));
	return [
		title,
		...[
			row(say`50 mW from`, sensitivity.join(', ')),
			row(say`IF width`, say`${width}, 5 kc above less 5 kc below ${decimalWords(asymmetryDb5kHz, 1)} dB`),
			row(say`dial`, say`off by ${kilocycles(worst)} at worst`),
		].map((line) => `  ${line}`),
	];
}

function lines(
	{ adjustments, readings, before, after, belowBestDb }: Rehearsal,
	language: Language,
): readonly string[] {
	const { say } = language;
	const work = say`${adjustments} adjustments, ${readings} readings`;
	return [
		...figureLines(say`before`, before, language),
		...figureLines(say`after`, after, language),
		belowBestDb === null
			? say`${work}; the best this set can do cannot be compared`
			: say`${work}; ${decimalWords(belowBestDb, 1)} dB below the best this set can do`,
	];
}

export const rehearseCommand = spokenCommand({
	name: 'rehearse',
	summary: 'a simulated hand works the sheet on a virtual set, judged by its true values',
	usage:
		'[--set SET.json] [--seed N] [--hand usual|guided] [--aim on-if|symmetrical|12kc] [--fault NAME] [--meter 0.2dB] [--pointer 0.3mm] [--json]',
	examples: [
		'npx peakwright rehearse --seed 3',
		'npx peakwright rehearse --seed 3 --fault winding-damped',
		'npx peakwright rehearse --seed 3 --hand guided',
		'npx peakwright rehearse --seed 3 --hand guided --aim symmetrical',
		'npx peakwright rehearse --seed 3 --hand usual --meter 0.5dB --json',
	],
	choices: { fault: Object.keys(namedFaults) },
	options: {
		set: { type: 'string' },
		seed: { type: 'string' },
		hand: { type: 'string' },
		aim: { type: 'string' },
		fault: { type: 'string' },
		meter: { type: 'string' },
		pointer: { type: 'string' },
		json: { type: 'boolean' },
	},
	run({ values, positionals }, output, language) {
		if (positionals.length > 0) throw new InputFault(`cannot use "${positionals[0]}": rehearse takes options only`);
		if (values.hand !== undefined && values.hand !== 'usual' && values.hand !== 'guided')
			throw new InputFault(`--hand: cannot use "${String(values.hand)}": give usual or guided`);
		if (values.aim !== undefined && values.hand !== 'guided')
			throw new InputFault('--aim: the usual hand peaks every adjuster and has no aim: give --hand guided with it');
		const aim = aimOf(values.aim);
		const path = virtualSetPath(values.set);
		const { card, facts, sheet } = sheetFor(path, usualOptions);
		const design = designOf(card, path);
		const seed = wholeNumber('seed', values.seed, 1);
		const meterDb = within(
			quantityOption('level', 'meter', values.meter, 0.2),
			0.001,
			6,
			'--meter: give a step from 0.001 to 6 dB, such as 0.2dB',
		);
		const pointerM = within(
			quantityOption('length', 'pointer', values.pointer, 0.3e-3),
			0,
			0.01,
			'--pointer: give how well the pointer is set, 0 to 10 mm, such as 0.3mm',
		);
		const set = tamperedSet(design, seed, faultsOf(values.fault));
		const guidedBy = values.hand === 'guided' ? { facts, aim } : null;
		const rehearsal = rehearse(set, sheet, { meterDb, pointerM, seed }, guidedBy);
		if (values.json === true) output.line(JSON.stringify(rehearsal));
		else for (const line of lines(rehearsal, language)) output.line(line);
	},
});
