import { usualOptions } from '#advice/sheet.ts';
import type { SheetOptions, SheetStep } from '#advice/sheet-step.ts';
import { htmlPage } from '#report/html-page.ts';
import type { PrintedDocument } from '#report/printed-document.ts';
import { sheetDocument } from '#report/sheet-document.ts';
import { pdfOf } from '#server/pdf.ts';
import { type Command, InputFault } from './command.ts';
import { writeOutput } from './input.ts';
import { sheetFor } from './sheet-file.ts';

/** What the person has and prefers, as options of the command. */
const choices = {
	generator: ['modulated', 'unmodulated', 'none'],
	attenuator: ['fine', 'coarse'],
	'low-end': ['dial true', 'greatest output'],
	meter: ['tone', 'AVC volts', 'AC volts'],
	coupling: ['direct', 'loose'],
	words: ['US', 'UK'],
	paper: ['A4', 'Letter'],
} as const;

function chosen<Name extends keyof typeof choices>(name: Name, given: unknown, usual: (typeof choices)[Name][number]) {
	if (given === undefined) return usual;
	const found = (choices[name] as readonly (typeof choices)[Name][number][]).find((choice) => choice === given);
	if (found === undefined)
		throw new InputFault(
			`--${name}: cannot use "${String(given)}": give ${choices[name].map((choice) => `"${choice}"`).join(' or ')}`,
		);
	return found;
}

function stepLines(step: SheetStep, nameOf: (id: string) => string): string[] {
	const row = (name: string, words: string | undefined | null) => (words ? [`    ${name.padEnd(11)} ${words}`] : []);
	const { hookUp, generator, dial } = step;
	return [
		`${String(step.number).padStart(2)}. ${step.title}`,
		...step.instructions.map((words) => `    ${words}`),
		...row('hook-up', hookUp && `${hookUp.point}; ${hookUp.dummy}: ${hookUp.why}`),
		...row('ground', hookUp?.ground),
		...row('generator', generator && `${generator.words}. ${generator.levelRule}`),
		...row('dial', dial?.words),
		...row(
			'adjust',
			step.adjusters.length > 0
				? `${step.adjusters.map(nameOf).join(', ')}${step.aim ? `, for ${step.aim}` : ''}${step.rock ? ', rocking the dial' : ''}`
				: null,
		),
		...row('read', step.indicator?.where),
		...step.questions.flatMap(({ words }) => row('answer', words)),
		...step.remarks.flatMap((words) => row('note', words)),
		...step.cautions.flatMap(({ words }) => row('CAUTION', words)),
		'',
	];
}

const today = (): string => new Date().toLocaleDateString('en-GB', { dateStyle: 'long' });

async function pdfBytes(document: PrintedDocument): Promise<Buffer> {
	const pdf = await pdfOf(document);
	if (!pdf.ok) throw new Error(pdf.words);
	return pdf.value;
}

export const sheetCommand: Command = {
	name: 'sheet',
	summary: 'makes the alignment sheet for a set card',
	usage:
		'SET.json [--generator modulated|unmodulated|none] [--attenuator fine|coarse] [--low-end "dial true"|"greatest output"] [--meter tone|"AVC volts"|"AC volts"] [--coupling direct|loose] [--words US|UK] [--pdf FILE] [--html FILE] [--paper A4|Letter] [--json]',
	examples: [
		'npx peakwright sheet examples/thistlemoor-tm-517.json',
		'npx peakwright sheet examples/thistlemoor-tm-517.json --pdf sheet.pdf --paper Letter',
		'npx peakwright sheet my-set.json --generator none --words UK --json',
	],
	options: {
		generator: { type: 'string' },
		attenuator: { type: 'string' },
		'low-end': { type: 'string' },
		meter: { type: 'string' },
		coupling: { type: 'string' },
		words: { type: 'string' },
		pdf: { type: 'string' },
		html: { type: 'string' },
		paper: { type: 'string' },
		json: { type: 'boolean' },
	},
	async run({ values, positionals }, output) {
		const [path, ...more] = positionals;
		if (path === undefined || more.length > 0) throw new InputFault('give one set card: npx peakwright sheet SET.json');
		const options: SheetOptions = {
			generator: chosen('generator', values.generator, usualOptions.generator),
			attenuator: chosen('attenuator', values.attenuator, usualOptions.attenuator),
			lowEndSchool: chosen('low-end', values['low-end'], usualOptions.lowEndSchool),
			meter: chosen('meter', values.meter, usualOptions.meter),
			coupling: chosen('coupling', values.coupling, usualOptions.coupling),
			words: chosen('words', values.words, usualOptions.words),
		};
		const paper = chosen('paper', values.paper, 'A4');
		const { card, facts, sheet } = sheetFor(path, options);
		const document = sheetDocument({ facts, sheet, options, paper, day: today() });
		for (const [form, file] of [
			['pdf', values.pdf],
			['html', values.html],
		] as const) {
			if (typeof file !== 'string') continue;
			writeOutput(file, form === 'html' ? htmlPage(document) : await pdfBytes(document));
			output.notice(`The sheet is in ${file}.`);
		}
		if (values.json === true) {
			output.line(JSON.stringify(sheet));
			return;
		}
		if (values.pdf !== undefined || values.html !== undefined) return;
		const names = new Map((card.adjusters ?? []).map(({ id, name }) => [id, name]));
		output.line(sheet.title);
		output.line('');
		for (const { words } of sheet.cautions) output.line(`CAUTION     ${words}`);
		for (const { what, assumed, why } of sheet.assumptions) output.line(`assumed     ${what}: ${assumed} (${why})`);
		for (const words of sheet.pad?.words ?? []) output.line(`pad         ${words}`);
		output.line('');
		for (const step of sheet.steps) for (const line of stepLines(step, (id) => names.get(id) ?? id)) output.line(line);
	},
};
