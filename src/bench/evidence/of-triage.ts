import { parseQuantity } from '#record/quantity.ts';
import type { Happening } from '#record/run.ts';
import type { FoundAnswer } from './found-answer.ts';

type Plain = Omit<FoundAnswer, 'words' | 'foundIn'>;

/** Answers of triage that settle a test by themselves. */
const triageAnswers: readonly { id: string; yes: Plain | null; no: Plain | null }[] = [
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

/** Plate supply below this share of the chart's is low: the test's own bound. */
const lowShare = 0.8;

/** What the answers of triage say to the tests of trouble. */
export function ofTriage({ answers = {} }: Extract<Happening, { kind: 'step done' }>): readonly FoundAnswer[] {
	const plain = triageAnswers.flatMap(({ id, yes, no }): FoundAnswer[] => {
		const answer = answers[id] === 'yes' ? yes : answers[id] === 'no' ? no : null;
		return answer === null ? [] : [{ ...answer, foundIn: 'triage' }];
	});
	const quiet: FoundAnswer[] =
		answers.hum === 'yes' && answers.quiet === 'yes' ? [{ test: 'silence', outcome: 'quiet', foundIn: 'triage' }] : [];
	const measured = parseQuantity('voltage', answers['b-plus'] ?? '');
	const chart = parseQuantity('voltage', answers['b-plus-chart'] ?? '');
	const supply: FoundAnswer[] =
		measured.ok && chart.ok && chart.value > 0
			? [
					{
						test: 'b-plus',
						outcome: measured.value < lowShare * chart.value ? 'low' : 'chart',
						words: `${answers['b-plus']} against ${answers['b-plus-chart']}`,
						foundIn: 'triage',
					},
				]
			: [];
	return [...plain, ...quiet, ...supply];
}
