import type { TestAnswer } from '#advice/trouble/ranking.ts';
import { type TestId, tests } from '#advice/trouble/tests.ts';
import { parseQuantity } from '#record/quantity.ts';
import type { Happening, RunEntry } from '#record/run.ts';

type Done = Extract<Happening, { kind: 'step done' }>;

/** Answers of triage that settle a test by themselves. */
const triageAnswers: readonly { id: string; yes: TestAnswer | null; no: TestAnswer | null }[] = [
	{ id: 'hum', yes: null, no: { test: 'silence', outcome: 'hum' } },
	{
		id: 'bias',
		yes: { test: 'output-grid', outcome: 'negative' },
		no: { test: 'output-grid', outcome: 'positive' },
	},
	{ id: 'avc', yes: { test: 'avc-rest', outcome: 'nought' }, no: { test: 'avc-rest', outcome: 'volts' } },
	{
		id: 'oscillator',
		yes: { test: 'oscillator-heard', outcome: 'everywhere' },
		no: { test: 'oscillator-heard', outcome: 'stops' },
	},
];

function ofTriage({ answers = {} }: Done): readonly TestAnswer[] {
	const plain = triageAnswers.flatMap(({ id, yes, no }): TestAnswer[] => {
		const answer = answers[id] === 'yes' ? yes : answers[id] === 'no' ? no : null;
		return answer === null ? [] : [{ ...answer, words: 'from triage' }];
	});
	const quiet: TestAnswer[] =
		answers.hum === 'yes' && answers.quiet === 'yes'
			? [{ test: 'silence', outcome: 'quiet', words: 'from triage' }]
			: [];
	const measured = parseQuantity('voltage', answers['b-plus'] ?? '');
	const chart = parseQuantity('voltage', answers['b-plus-chart'] ?? '');
	const supply: TestAnswer[] =
		measured.ok && chart.ok && chart.value > 0
			? [
					{
						test: 'b-plus',
						outcome: measured.value < 0.8 * chart.value ? 'low' : 'chart',
						words: `${answers['b-plus']} against ${answers['b-plus-chart']}`,
					},
				]
			: [];
	return [...plain, ...quiet, ...supply];
}

const stepOutcome = { linear: 'follows', 'too strong': 'less', 'more than 6 dB': 'more' } as const;

/** A turn of two eighths that moves the level by less than this does nothing (chosen). */
const deadDb = 0.3;
/** A turn that moves it by this much does something (chosen). */
const aliveDb = 1;
const leastEighths = 2;
const leastReadings = 4;

/** Whether adjusters answered, from the levels read while each was turned. */
function ofTurns(entries: readonly RunEntry[]): readonly TestAnswer[] {
	const dead = new Set<string>();
	const alive = new Set<string>();
	let levels: number[] = [];
	for (const { what } of entries) {
		if (what.kind === 'level' && what.purpose === 'live' && what.reading.trust === 'ok' && what.reading.levelDb)
			levels.push(what.reading.levelDb.value);
		if (what.kind === 'generator level' || what.kind === 'step begun' || what.kind === 'resumed') levels = [];
		if (what.kind !== 'adjusted') continue;
		const spreadDb = Math.max(...levels) - Math.min(...levels);
		if (levels.length >= leastReadings && spreadDb >= aliveDb) {
			alive.add(what.adjuster);
			dead.delete(what.adjuster);
		} else if (levels.length >= leastReadings && spreadDb < deadDb && Math.abs(what.eighths ?? 0) >= leastEighths)
			dead.add(what.adjuster);
		levels = [];
	}
	if (dead.size > 0 && alive.size > 0) {
		const words = `${[...dead].join(', ')}: less than ${deadDb} dB over the turn`;
		return [{ test: 'adjuster-dead', outcome: dead.size === 1 ? 'one' : 'before', words }];
	}
	if (dead.size > 1) return [{ test: 'adjuster-dead', outcome: 'none', words: `${dead.size} adjusters turned` }];
	return alive.size > 2 && dead.size === 0
		? [{ test: 'adjuster-dead', outcome: 'all', words: `${alive.size} adjusters moved the level` }]
		: [];
}

/** What the entries of a run already say to the tests of a trouble, the latest answer of each test last. */
export function runEvidence(entries: readonly RunEntry[]): readonly TestAnswer[] {
	const said = entries.flatMap(({ what }): readonly TestAnswer[] => {
		switch (what.kind) {
			case 'step done':
				return ofTriage(what);
			case '6 dB step': {
				const outcome = Object.hasOwn(stepOutcome, what.verdict)
					? stepOutcome[what.verdict as keyof typeof stepOutcome]
					: undefined;
				return outcome === undefined ? [] : [{ test: 'six-db', outcome, words: `${what.stepDb.value.toFixed(1)} dB` }];
			}
			case 'test answered':
				return Object.hasOwn(tests, what.test)
					? [
							{
								test: what.test as TestId,
								outcome: what.outcome,
								...(what.words === undefined ? {} : { words: what.words }),
							},
						]
					: [];
			default:
				return [];
		}
	});
	return [...ofTurns(entries), ...said];
}
