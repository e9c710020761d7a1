import { testAsks } from '#advice/tests/asks.ts';
import { differenceWords, findingWords } from '#advice/tests/figure-words.ts';
import { ReadingBook } from '#advice/tests/finding.ts';
import { testsUnfit } from '#advice/tests/marks.ts';
import { sourceWords, standardTests } from '#advice/tests/procedures.ts';
import { type MomentFindings, type Proof, proofOf } from '#advice/tests/proof.ts';
import type { StandardTest } from '#advice/tests/standard-test.ts';
import { runState } from '#bench/run-state.ts';
import { tuningAtMark, valuesAt } from '#core/receiver/bench-set.ts';
import { designs } from '#core/receiver/designs/designs.ts';
import { tamperedSet } from '#core/receiver/truth.ts';
import { type Language, saysSame } from '#record/language.ts';
import { type SetFacts, setFacts } from '#record/set-facts.ts';
import type { TestGear, TestReading } from '#record/test-reading.ts';
import { testReadingOf } from '#record/test-words.ts';
import { TestHand } from '#rehearsal/test-hand.ts';
import { sqliteJournal } from '#storage/sqlite-journal.ts';
import { answerRow } from './answer-row.ts';
import { type CommandInput, InputFault } from './command.ts';
import { readInput, wholeNumber } from './input.ts';
import { factsFor } from './sheet-file.ts';
import { withStore } from './shelf-commands.ts';
import { spokenCommand } from './spoken-command.ts';
import { testGearOf, testGearOptions, testGearUsage } from './test-gear-options.ts';

/** Readings of a file, a line each: `before|after, which reading, what was read`, the reading by its name in any words and units; lines that begin with # are passed over. */
function readingsOf(path: string, facts: SetFacts, gear: readonly TestGear[]): readonly TestReading[] {
	const readings: TestReading[] = [];
	const lines = readInput(path, 'a file of readings').toString('utf8').split(/\r?\n/);
	lines.forEach((line, index) => {
		if (line.trim() === '' || line.startsWith('#')) return;
		const [, moment, id, words] = /^\s*([^,]*?)\s*,\s*([^,]*?)\s*,\s*(.*?)\s*$/.exec(line) ?? [];
		const where = `${path}, line ${index + 1}`;
		const own = gear.find((one) => one.moment === moment);
		if (!own || id === undefined || words === undefined)
			throw new InputFault(
				`${where}: give "before" or "after", which reading, and what was read: after, hum down, 3 mV`,
			);
		const ask = testAsks(facts, new ReadingBook(readings, own)).find((one) => saysSame(one.id, id));
		if (!ask) throw new InputFault(`${where}: no reading "${id}": npx peakwright tests SET.json lists them`);
		const reading = testReadingOf({ moment: own.moment, test: ask.test, ask: ask.id, quantity: ask.quantity }, words);
		if (!reading.ok) throw new InputFault(`${where}: ${reading.words}`);
		readings.push(reading.value);
	});
	return readings;
}

/** Every reading of the virtual set that a card names, as its seed has tampered with it. */
function virtualReadings(facts: SetFacts, gear: TestGear, seed: number): readonly TestReading[] {
	const design = designs[facts.card.virtualSet ?? ''];
	if (!design)
		throw new InputFault(
			'--virtual: this card names no virtual set: give one that does, such as examples/thistlemoor-tm-517.json',
		);
	const set = tamperedSet(design, seed);
	return [
		...new TestHand((dialHz, volume) => valuesAt(set, tuningAtMark(set, dialHz), volume), facts, gear, seed).readings(),
	];
}

const row = answerRow(11);

function procedureLines(
	{ title, measures, source, hookUp, steps, budget, cannot, asks }: StandardTest,
	language: Language,
): readonly string[] {
	const { say, term } = language;
	const { point, dummy, why, ground } = hookUp;
	return [
		title,
		...[
			row(say`measures`, measures),
			row(say`follows`, sourceWords(source, language)),
			row(say`hook-up`, say`${point}; ${dummy}: ${why}; ground: ${ground}`),
			...steps.map((words) => row(say`step`, words)),
			row(say`uncertainty`, budget.join(', ')),
			...cannot.map((words) => row(say`cannot`, words)),
			...asks.map(({ id, words }) => `${term(id)}: ${words}`),
		].map((line) => `    ${line}`),
		'',
	];
}

const figureRow = answerRow(58);

function momentLines({ gear, findings, verdicts, loss }: MomentFindings, language: Language): readonly string[] {
	const { say, term } = language;
	return [
		gear.moment === 'before' ? say`Before` : say`After`,
		...findings.flatMap((finding) => {
			const verdict = verdicts.find((one) => one.finding === finding);
			return [
				`    ${figureRow(finding.label, findingWords(finding, language))}`,
				...(verdict ? [`        ${term(verdict.standing)}: ${verdict.words}`] : []),
			];
		}),
		...(loss === null ? [] : [`    ${loss}`]),
		'',
	];
}

function proofLines({ before, after, differences }: Proof, language: Language): readonly string[] {
	const { say } = language;
	return [
		...(before ? momentLines(before, language) : []),
		...(after ? momentLines(after, language) : []),
		...(differences.length > 0 ? [say`What changed`] : []),
		...differences.map((one) => `    ${figureRow(one.label, differenceWords(one, language))}`),
		say`\u00b1 is two standard deviations: about nineteen in twenty.`,
	];
}

/** What is judged: a set, the gear of both moments and what was read with it. */
interface Judged {
	readonly facts: SetFacts;
	readonly gear: readonly TestGear[];
	readonly readings: readonly TestReading[];
}

/** Readings of a run in the journal, with the gear that was named in it. */
function ofRun(input: CommandInput, run: string): Promise<Judged> {
	return withStore(input, async (store) => {
		const state = runState(run, await sqliteJournal(store).standing(run));
		if (state.card === null) throw new InputFault(`there is no run "${run}": npx peakwright runs lists them`);
		const facts = setFacts(state.card);
		if (!facts.ok) throw new InputFault(facts.words);
		return { facts: facts.value, gear: state.testGear, readings: state.testReadings };
	});
}

function ofCard([path, ...more]: readonly string[], values: CommandInput['values']): Judged {
	if (path === undefined || more.length > 0)
		throw new InputFault('give one set card: npx peakwright tests SET.json, or a run: npx peakwright tests --run RUN');
	const facts = factsFor(path);
	const gear = [testGearOf(facts, 'before', values), testGearOf(facts, 'after', values)] as const;
	const readings = [
		...(typeof values.readings === 'string' ? readingsOf(values.readings, facts, gear) : []),
		...(values.virtual === true ? virtualReadings(facts, gear[0], wholeNumber('seed', values.seed, 1)) : []),
	];
	return { facts, gear, readings };
}

export const testsCommand = spokenCommand({
	name: 'tests',
	summary: 'the standard tests: how each is worked, and what readings say, before and after',
	usage: `SET.json|--run RUN [--data FOLDER] [--readings FILE] [--virtual] [--seed N] ${testGearUsage} [--json]`,
	examples: [
		'npx peakwright tests examples/thistlemoor-tm-517.json',
		'npx peakwright tests examples/thistlemoor-tm-517.json --virtual --seed 3',
		'npx peakwright tests --run 3f1c2a9e-run --json',
		'npx peakwright tests my-set.json --readings readings.txt --generator unknown --json',
	],
	options: {
		readings: { type: 'string' },
		run: { type: 'string' },
		data: { type: 'string' },
		virtual: { type: 'boolean' },
		seed: { type: 'string' },
		...testGearOptions,
		json: { type: 'boolean' },
	},
	async run(input, output, language) {
		const { values, positionals } = input;
		const { facts, gear, readings } =
			typeof values.run === 'string' ? await ofRun(input, values.run) : ofCard(positionals, values);
		const unfit = testsUnfit(facts);
		if (unfit !== null) throw new InputFault(unfit);
		const tests = standardTests(facts, gear.at(-1) ?? testGearOf(facts, 'before', values), readings, language);
		const proof = proofOf(facts, gear, readings, undefined, language);
		if (values.json === true) output.line(JSON.stringify({ tests, readings, ...proof }));
		else if (readings.length > 0) for (const line of proofLines(proof, language)) output.line(line);
		else for (const test of tests) for (const line of procedureLines(test, language)) output.line(line);
	},
});
