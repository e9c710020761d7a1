import { causes } from '#advice/trouble/causes.ts';
import { dangerWords, localCodesWords } from '#advice/trouble/danger-words.ts';
import { type Finding, findingOf } from '#advice/trouble/finding.ts';
import type { ProposedTest } from '#advice/trouble/next-test.ts';
import { likeliestTrouble, outcomeOf, standingAnswers, type TestAnswer } from '#advice/trouble/ranking.ts';
import { type TestId, tests } from '#advice/trouble/tests.ts';
import { type TroubleId, troubles, troublesFor } from '#advice/trouble/troubles.ts';
import type { FoundAnswer } from '#bench/evidence/found-answer.ts';
import { runEvidence } from '#bench/evidence/run-evidence.ts';
import { runState } from '#bench/run-state.ts';
import type { Language } from '#record/language.ts';
import { sqliteJournal } from '#storage/sqlite-journal.ts';
import { type CommandInput, type CommandOutput, InputFault } from './command.ts';
import { withStore } from './shelf-commands.ts';
import { spokenCommand } from './spoken-command.ts';

const ids = Object.keys(troubles) as TroubleId[];
/** Causes less likely than this are not printed (they are in the JSON). */
const leastPrinted = 0.02;

function troubleNamed(words: string): TroubleId {
	const found = troublesFor(words);
	const [one] = found;
	if (one === undefined) throw new InputFault(`--symptom: no trouble "${words}": give one of ${ids.join(', ')}`);
	if (found.length > 1) throw new InputFault(`--symptom: "${words}" may be ${found.join(', ')}: give one of them`);
	return one;
}

/** `TEST=OUTCOME`, the outcome by its short name or as the meter's reading. */
function answerOf(words: string): TestAnswer {
	const split = words.indexOf('=');
	const test = words.slice(0, split);
	if (split < 1 || !Object.hasOwn(tests, test))
		throw new InputFault(`--answer: cannot read "${words}": give TEST=OUTCOME, such as volume-down=goes`);
	const said = words.slice(split + 1);
	const outcome = outcomeOf(test as TestId, said);
	if (!outcome.ok) throw new InputFault(`--answer ${test}: ${outcome.words}`);
	return { test: test as TestId, outcome: outcome.value, ...(said === outcome.value ? {} : { words: said }) };
}

/** Tests whose answers from the run are put aside. */
function putAside({ values }: CommandInput): readonly string[] {
	const aside = Array.isArray(values.without) ? values.without.map(String) : [];
	const unknown = aside.find((test) => !Object.hasOwn(tests, test));
	if (unknown !== undefined) throw new InputFault(`--without: no test "${unknown}": give one that the run answers`);
	return aside;
}

interface Evidence {
	readonly found: readonly FoundAnswer[];
	/** Names that a person gave on the run's card. */
	readonly names: readonly string[];
}

async function evidenceOf(input: CommandInput): Promise<Evidence> {
	const { run } = input.values;
	const aside = putAside(input);
	if (typeof run !== 'string') return { found: [], names: [] };
	return withStore(input, async (store) => {
		const entries = await sqliteJournal(store).standing(run);
		if (entries.length === 0) throw new InputFault(`--run: no run "${run}": npx peakwright runs lists them`);
		const { adjusters = [], bands = [] } = runState(run, entries).card ?? {};
		return {
			found: runEvidence(entries, Date.now()).filter(({ test }) => !aside.includes(test)),
			names: [...adjusters, ...bands].flatMap(({ name }) => name ?? []),
		};
	});
}

function testObject({ test, informationBits }: ProposedTest, { term }: Language) {
	const { words, how, takesS, danger, outcomes, typed, basis } = tests[test];
	return {
		test,
		words: term(words),
		how: term(how),
		takesS,
		danger,
		caution: term(dangerWords(danger)),
		outcomes: outcomes.map((outcome) => ({ ...outcome, words: term(outcome.words) })),
		...(typed ? { typed: { quantity: typed.quantity, asks: term(typed.asks) } } : {}),
		informationBits,
		basis,
	};
}

function jsonOf(
	{ trouble, causes: ranked, nextTest, otherTests, isSettled, words, wouldChange, handOver }: Finding,
	language: Language,
) {
	const { term } = language;
	return {
		trouble,
		symptom: term(troubles[trouble].words),
		words,
		settled: isSettled,
		causes: ranked.map(({ cause, probability, evidence }) => {
			const { words: causeWords, shows, remedy, part } = { part: null, ...causes[cause] };
			return {
				cause,
				words: term(causeWords),
				probability,
				evidence,
				shows: term(shows),
				remedy: remedy.map((one) => term(one)),
				part,
			};
		}),
		nextTest: nextTest === null ? null : testObject(nextTest, language),
		otherTests: otherTests.map(({ test, informationBits }) => ({ test, informationBits })),
		wouldChange,
		handOver,
		sources: troubles[trouble].sources,
		caution: term(localCodesWords),
	};
}

/** A finding in the words that were chosen; what was typed at a test or named in a run stays as it is. */
function said(
	{ words, wouldChange, handOver, causes: ranked, ...finding }: Finding,
	typed: readonly string[],
	{ term }: Language,
): Finding {
	return {
		...finding,
		words: term(words),
		wouldChange: wouldChange.map((one) => term(one)),
		handOver: handOver === null ? null : term(handOver),
		causes: ranked.map(({ evidence, ...cause }) => ({
			...cause,
			evidence: evidence.map((one) => ({ ...one, words: term(one.words, typed) })),
		})),
	};
}

function printFinding(finding: Finding, output: CommandOutput, { say, term }: Language): void {
	const { trouble, causes: ranked, nextTest, words, wouldChange, handOver, isSettled } = finding;
	output.line(`${term(troubles[trouble].words)}. ${words}`);
	output.line('');
	for (const { cause, probability, evidence } of ranked.filter((one) => one.probability >= leastPrinted)) {
		output.line(`${`${Math.round(100 * probability)} %`.padStart(5)}  ${term(causes[cause].words)}`);
		for (const { words: evident, times } of evidence)
			if (times >= 1.5 || times <= 0.67)
				output.line(`       ${times > 1 ? say`for: ${evident}` : say`against: ${evident}`}`);
	}
	const [first] = ranked;
	if (first && isSettled) {
		output.line('');
		for (const remedy of causes[first.cause].remedy) output.line(say`Do: ${term(remedy)}`);
	}
	if (handOver !== null) output.line(`\n${say`Stop here. ${handOver}`}`);
	if (nextTest !== null) {
		const test = tests[nextTest.test];
		output.line('');
		output.line(say`Next: ${term(test.words)}`);
		output.line(`      ${term(test.how)}`);
		output.line(`      ${term(dangerWords(test.danger))}`);
		for (const outcome of test.outcomes)
			output.line(`      --answer ${nextTest.test}=${outcome.id}: ${term(outcome.words)}`);
	}
	if (wouldChange.length > 0) {
		output.line('');
		output.line(say`What would change it:`);
		for (const change of wouldChange) output.line(`      ${change}`);
	}
	output.line('');
	output.line(term(localCodesWords));
}

function printFound({ found, names }: Evidence, output: CommandOutput, { say, term }: Language): void {
	if (found.length === 0) return;
	output.line('');
	output.line(say`Counted from the run, put aside by --without TEST:`);
	for (const { test, outcome, words, foundIn } of standingAnswers(found))
		output.line(
			`      ${test}: ${outcome}${words === undefined ? '' : ` (${term(words, names)})`}, ${say`from ${term(foundIn)}`}`,
		);
}

export const troubleCommand = spokenCommand({
	name: 'trouble',
	summary: 'what lies behind a symptom, how likely, and which test tells most',
	usage: '[--symptom WORD] [--run ID] [--answer TEST=OUTCOME ...] [--without TEST ...] [--data FOLDER] [--json]',
	examples: [
		'npx peakwright trouble',
		'npx peakwright trouble --symptom crackle',
		'npx peakwright trouble --symptom weak --answer three-points=alike --answer converter-grid=weak',
		'npx peakwright trouble --run 3f2a --without curve --json',
	],
	choices: { symptom: Object.keys(troubles) },
	options: {
		data: { type: 'string' },
		symptom: { type: 'string' },
		run: { type: 'string' },
		answer: { type: 'string', multiple: true },
		without: { type: 'string', multiple: true },
		json: { type: 'boolean' },
	},
	async run(input, output, language) {
		const { term } = language;
		const { values, positionals } = input;
		if (positionals.length > 0)
			throw new InputFault(`cannot use "${positionals[0]}": give --symptom "${positionals[0]}"`);
		const typed = Array.isArray(values.answer) ? values.answer.map((words) => answerOf(String(words))) : [];
		const { found, names } = await evidenceOf(input);
		const answers = [...found, ...typed];
		if (typeof values.symptom !== 'string' && answers.length === 0) {
			if (values.json === true) {
				const list = ids.map((id) => ({ trouble: id, symptom: term(troubles[id].words), area: troubles[id].area }));
				output.line(JSON.stringify({ troubles: list, causes: [], nextTest: null }));
			} else for (const id of ids) output.line(`${id.padEnd(18)} ${term(troubles[id].words)}`);
			return;
		}
		const trouble = typeof values.symptom === 'string' ? troubleNamed(values.symptom) : likeliestTrouble(answers);
		const finding = said(findingOf(trouble, answers), names, language);
		if (values.json === true) output.line(JSON.stringify({ ...jsonOf(finding, language), found }));
		else {
			printFinding(finding, output, language);
			printFound({ found, names }, output, language);
		}
	},
});
