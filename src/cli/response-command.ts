import { type AdjusterAnswer, analyseResponse, type ResponseAnswer } from '#advice/response/response-answer.ts';
import type { ResponseQuestion } from '#advice/response/response-question.ts';
import { estimateWords, inKilocycles, kilocycleWords } from '#record/estimate-words.ts';
import type { Language } from '#record/language.ts';
import { decimalWords, signedWords } from '#record/quantity-words.ts';
import type { SweepPoint } from '#record/sweep.ts';
import { aimOf } from './aim-option.ts';
import { answerRow } from './answer-row.ts';
import { type CommandInput, type CommandOutput, InputFault } from './command.ts';
import { quantityOption } from './input.ts';
import { type SweepParameter, sweepIn, turnsIn } from './response-sweeps.ts';
import { spokenCommand } from './spoken-command.ts';

const named = answerRow(16);

function parameterOf(given: unknown): SweepParameter {
	if (given === undefined) return undefined;
	const name = String(given).toUpperCase();
	if (name !== 'S11' && name !== 'S21')
		throw new InputFault(`--parameter: cannot use "${String(given)}": give S11 or S21`);
	return name;
}

/** Tuned windings of the strip, from 1 to 8. */
function windingsOf(given: unknown): number {
	const count = given === undefined ? 4 : Number(given);
	if (!Number.isInteger(count) || count < 1 || count > 8)
		throw new InputFault(
			`--windings: cannot use "${String(given)}": give how many tuned windings the strip has, 1 to 8`,
		);
	return count;
}

function questionOf(input: CommandInput): ResponseQuestion {
	const { values, positionals } = input;
	const [path, ...more] = positionals;
	if (path === undefined || more.length > 0)
		throw new InputFault('give one base sweep: npx peakwright response BASE.csv --if 455kc');
	const ifHz = quantityOption('frequency', 'if', values.if, null);
	if (ifHz === null) throw new InputFault('--if is missing: give the aimed IF, such as --if 455kc');
	const parameter = parameterOf(values.parameter);
	const meterDb = quantityOption('level', 'meter', values.meter, null);
	if (meterDb !== null && meterDb <= 0)
		throw new InputFault('--meter: give the standard uncertainty of a reading, above 0 dB, such as 0.1dB');
	const base = sweepIn(path, parameter, 5);
	const [first, last] = [base[0] as SweepPoint, base.at(-1) as SweepPoint];
	if (first.frequencyHz > 1.5 * ifHz || last.frequencyHz < ifHz / 1.5) {
		throw new InputFault(
			`${path}: from ${(first.frequencyHz / 1e3).toFixed(1)} to ${(last.frequencyHz / 1e3).toFixed(1)} kc, far from the IF of ${(ifHz / 1e3).toFixed(1)} kc: check the unit of the frequency column and --if`,
		);
	}
	const untouched: ResponseQuestion = {
		base,
		nudges: [],
		second: values['second-level'] === undefined ? null : sweepIn(String(values['second-level']), parameter, 5),
		ifHz,
		toneHz: values.tone === 'none' ? 0 : quantityOption('frequency', 'tone', values.tone, 400),
		meterDb,
		generatorHz: quantityOption('frequency', 'generator', values.generator, 0),
		aim: aimOf(values.aim),
		windingCount: windingsOf(values.windings),
	};
	return { ...untouched, nudges: turnsIn(input, parameter, untouched) };
}

/** Where an adjuster's circuit is, and which way to turn it. */
function adjusterLine(
	{ name, frequencyHz, foundHz, offHz, direction, timesNudge }: AdjusterAnswer,
	{ say, figure }: Language,
): string {
	const [now, found] = [figure(kilocycleWords(frequencyHz)), figure(kilocycleWords(foundHz))];
	const off = figure(`${(Math.abs(offHz) / 1e3).toFixed(1)} kc`);
	const where = offHz < 0 ? say`${now}, ${off} low` : say`${now}, ${off} high`;
	const times = timesNudge?.toFixed(1) ?? '';
	const way =
		direction === 'same'
			? `; ${say`turn on, the same way as your nudge, ${times} times as far`}`
			: direction === 'opposite'
				? `; ${say`turn back, the other way than your nudge, ${times} times as far`}`
				: '';
	return named(name, `${where}${way} (${say`as found ${found}`})`);
}

function tell(answer: ResponseAnswer, output: CommandOutput, language: Language): void {
	const { say, term, figure } = language;
	const row = (name: string, words: string): void => output.line(named(name, words));
	const wide = (hertz: number): string => figure(`${(hertz / 1e3).toFixed(1)} kc`);
	row(say`peak`, figure(kilocycleWords(answer.peakHz)));
	if (answer.atIfBelowPeakDb) row(say`at the IF`, say`${estimateWords(answer.atIfBelowPeakDb, 'dB')} below the peak`);
	for (const { belowPeakDb, widthHz, centreHz } of answer.bandwidths)
		row(
			say`${belowPeakDb} dB width`,
			say`${figure(estimateWords(inKilocycles(widthHz), 'kc'))}, centred on ${figure(kilocycleWords(centreHz))}`,
		);
	if (answer.slopeDbPerKHzAtIf)
		row(say`slope at the IF`, estimateWords(answer.slopeDbPerKHzAtIf, `dB/${figure('kc')}`));
	if (answer.asymmetryDb5kHz)
		row(say`asymmetry`, say`${estimateWords(answer.asymmetryDb5kHz, 'dB')}, 5 kc above less 5 kc below`);
	for (const { offsetHz, belowIfDb } of answer.adjacent)
		row(say`at ${figure(`${signedWords(offsetHz / 1e3, 0)} kc`)}`, say`${estimateWords(belowIfDb, 'dB')} below the IF`);
	if (answer.adjusters.length > 0) {
		output.line('');
		for (const adjuster of answer.adjusters) output.line(adjusterLine(adjuster, language));
	}
	if (answer.aims.length > 0) {
		output.line('');
		for (const { aim, atIfDb, width6Hz, asymmetryDb5kHz } of answer.aims)
			output.line(
				`${term(aim)}: ${say`${decimalWords(atIfDb, 1)} dB at the IF, ${wide(width6Hz)} wide at 6 dB, ${decimalWords(asymmetryDb5kHz, 1)} dB of asymmetry`}`,
			);
	}
	if (answer.findings.length > 0) output.line('');
	for (const { words } of answer.findings) output.line(words);
	if (answer.advice.length > 0) output.line('');
	for (const [place, { words }] of answer.advice.entries()) output.line(`${place + 1}. ${words}`);
}

/** Findings and advice in the words that were chosen; the names of the adjusters stay as they were typed. */
function said({ findings, advice, ...answer }: ResponseAnswer, { term }: Language): ResponseAnswer {
	const names = answer.adjusters.map(({ name }) => name);
	const spoken = <One extends { readonly words: string }>(one: One): One => ({ ...one, words: term(one.words, names) });
	return { ...answer, findings: findings.map(spoken), advice: advice.map(spoken) };
}

export const responseCommand = spokenCommand({
	name: 'response',
	summary: 'reads an IF curve: peak, widths, circuits, and which adjuster to turn',
	usage:
		'BASE.csv --if 455kc [--nudge NAME=FILE.csv ...] [--setting NAME=FILE.csv ...] [--proof FILE.csv ...] [--second-level FILE.csv] [--tone 400c|none] [--meter 0.1dB] [--generator 100c] [--aim on-if|symmetrical|12kc] [--parameter S11|S21] [--windings 4] [--json]',
	examples: [
		'npx peakwright response examples/if-curve.csv --if 455kc',
		'npx peakwright response examples/if-curve.csv --if 455kc --nudge T1-primary=examples/if-curve-after-t1-primary.csv --nudge T2-secondary=examples/if-curve-after-t2-secondary.csv',
	],
	options: {
		if: { type: 'string' },
		nudge: { type: 'string', multiple: true },
		setting: { type: 'string', multiple: true },
		proof: { type: 'string', multiple: true },
		'second-level': { type: 'string' },
		tone: { type: 'string' },
		meter: { type: 'string' },
		generator: { type: 'string' },
		aim: { type: 'string' },
		parameter: { type: 'string' },
		windings: { type: 'string' },
		json: { type: 'boolean' },
	},
	run(input, output, language) {
		const answer = said(analyseResponse(questionOf(input)).answer, language);
		if (input.values.json === true) output.line(JSON.stringify(answer));
		else tell(answer, output, language);
	},
});
