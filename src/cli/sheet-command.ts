import { hookUpWords } from '#advice/hook-up-words.ts';
import { sheetOptions } from '#advice/sheet-options.ts';
import type { SheetStep } from '#advice/sheet-step.ts';
import type { Language } from '#record/language.ts';
import { htmlPage } from '#report/html-page.ts';
import { type Paper, paperNamed } from '#report/printed-document.ts';
import { sheetDocument } from '#report/sheet-document.ts';
import { answerRow } from './answer-row.ts';
import { InputFault } from './command.ts';
import { writeOutput } from './input.ts';
import { pdfBytes } from './pdf-bytes.ts';
import { sheetFor } from './sheet-file.ts';
import { spokenCommand } from './spoken-command.ts';

const named = answerRow(11);

function stepLines(step: SheetStep, nameOf: (id: string) => string, language: Language): string[] {
	const { say, term } = language;
	const row = (name: string, words: string | undefined | null) => (words ? [`    ${named(name, words)}`] : []);
	const { hookUp, generator, dial } = step;
	return [
		`${String(step.number).padStart(2)}. ${step.title}`,
		...step.instructions.map((words) => `    ${words}`),
		...row(say`hook-up`, hookUp && `${hookUpWords(hookUp, language)}: ${hookUp.why}`),
		...row(say`ground`, hookUp?.ground),
		...row(say`generator`, generator && `${generator.words}. ${generator.levelRule}`),
		...row(say`dial`, dial?.words),
		...row(
			say`adjust`,
			step.adjusters.length > 0
				? `${step.adjusters.map(nameOf).join(', ')}${step.aim ? say`, for ${term(step.aim)}` : ''}${step.rock ? say`, rocking the dial` : ''}`
				: null,
		),
		...row(say`read`, step.indicator?.where),
		...step.questions.flatMap(({ words }) => row(say`answer`, words)),
		...step.remarks.flatMap((words) => row(say`note`, words)),
		...step.cautions.flatMap(({ words }) => row(say`CAUTION`, words)),
		'',
	];
}

function paperFrom(words: unknown): Paper {
	const paper = paperNamed(words ?? 'A4');
	if (paper === null) throw new InputFault(`--paper: cannot use "${String(words)}": give A4 or Letter`);
	return paper;
}

export const sheetCommand = spokenCommand({
	name: 'sheet',
	summary: 'makes the alignment sheet for a set card',
	usage:
		'SET.json [--generator modulated|unmodulated|none] [--attenuator fine|coarse] [--low-end "dial true"|"greatest output"] [--meter tone|"AVC volts"|"AC volts"] [--coupling direct|loose] [--pdf FILE] [--html FILE] [--paper A4|Letter] [--json]',
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
		pdf: { type: 'string' },
		html: { type: 'string' },
		paper: { type: 'string' },
		json: { type: 'boolean' },
	},
	async run({ values, positionals }, output, language) {
		const { say } = language;
		const [path, ...more] = positionals;
		if (path === undefined || more.length > 0) throw new InputFault('give one set card: npx peakwright sheet SET.json');
		const options = sheetOptions({ ...values, lowEndSchool: values['low-end'] });
		if (!options.ok) throw new InputFault(`--${options.words.replace('lowEndSchool', 'low-end')}`);
		const paper = paperFrom(values.paper);
		const { card, facts, sheet } = sheetFor(path, options.value);
		const document = sheetDocument({
			facts,
			sheet,
			language,
			photos: [],
			paper,
			day: language.day(Date.now()),
		});
		for (const [form, file] of [
			['pdf', values.pdf],
			['html', values.html],
		] as const) {
			if (typeof file !== 'string') continue;
			writeOutput(file, form === 'html' ? htmlPage(document) : await pdfBytes(document));
			output.notice(say`The sheet is in ${file}.`);
		}
		if (values.json === true) {
			output.line(JSON.stringify(sheet));
			return;
		}
		if (values.pdf !== undefined || values.html !== undefined) return;
		const names = new Map((card.adjusters ?? []).map(({ id, name }) => [id, name]));
		output.line(sheet.title);
		output.line('');
		for (const { words } of sheet.cautions) output.line(named(say`CAUTION`, words));
		for (const { what, assumed, why } of sheet.assumptions)
			output.line(named(say`assumed`, `${what}: ${assumed} (${why})`));
		for (const words of sheet.pad?.words ?? []) output.line(named(say`pad`, words));
		output.line('');
		for (const step of sheet.steps)
			for (const line of stepLines(step, (id) => names.get(id) ?? id, language)) output.line(line);
	},
});
