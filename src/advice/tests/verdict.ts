import { type Language, usualLanguage } from '#record/language.ts';
import type { SetFacts } from '#record/set-facts.ts';
import type { TestGear } from '#record/test-reading.ts';
import { sensitivityAsk } from './asks.ts';
import { type Expected, expectedFigures } from './expected.ts';
import { coverage, findingWords } from './figure-words.ts';
import { testMarks } from './marks.ts';
import type { Finding } from './standard-test.ts';

/** How a figure stands to what this class of set can do. */
export interface Verdict {
	readonly finding: Finding;
	readonly expected: Expected;
	readonly standing: 'as good as can be expected' | 'a little short of it' | 'short of it' | 'outside the usual';
	/** What was expected, with its ground and reason. */
	readonly words: string;
}

/** Beyond this a figure is plainly short, decibels (chosen: a step that an ear notices at once). */
const plainlyDb = 10;

/** A bound in the finding's own words, without an uncertainty. */
function bound(finding: Finding, value: number, language: Language): readonly [figure: string, unit: string] {
	const spread = { ...finding, value: { value, uncertainty: Math.abs(value) * 0.02 }, isRelative: false };
	const words = findingWords(spread, language);
	return [words.split(' \u00b1')[0] ?? '', words.split(' ').at(-1) ?? ''];
}

/** How far a figure lies beyond its bounds on the bad side, decibels for levels and ratios; 0 within them or within its own uncertainty. */
function shortDb({ value, unit, better }: Finding, { low, high }: Expected): number {
	if (value === null) return Number.POSITIVE_INFINITY;
	const slack = coverage * (value.uncertainty ?? 0);
	if (unit === 'V') return Math.max(0, 20 * Math.log10(Math.max(value.value - slack, 1e-12) / high));
	return better === 'more' ? Math.max(0, low - value.value - slack) : 0;
}

function verdictOf(finding: Finding, expected: Expected, language: Language): Verdict {
	const { low, high, basis, reason } = expected;
	const { say } = language;
	const [from] = bound(finding, low, language);
	const [to, unit] = bound(finding, high, language);
	const words =
		basis === 'its own circuits'
			? say`${from} to ${to} ${unit} expected, by its own circuits: ${reason}`
			: say`${from} to ${to} ${unit} expected, by common practice: ${reason}`;
	const common = { finding, expected, words };
	if (finding.better === 'neither') {
		const slack = coverage * (finding.value?.uncertainty ?? 0);
		const inside = finding.value && finding.value.value + slack >= low && finding.value.value - slack <= high;
		return { ...common, standing: inside ? 'as good as can be expected' : 'outside the usual' };
	}
	const short = shortDb(finding, expected);
	return {
		...common,
		standing: short === 0 ? 'as good as can be expected' : short <= plainlyDb ? 'a little short of it' : 'short of it',
	};
}

/** Each figure beside what this class of set can do; figures on which nothing can be expected are left out, relative volts too. */
export function verdicts(
	facts: SetFacts,
	gear: TestGear,
	findings: readonly Finding[],
	language: Language = usualLanguage,
): readonly Verdict[] {
	const expected = expectedFigures(facts, gear, language);
	return findings.flatMap((finding) => {
		const own = expected.find(({ id }) => id === finding.id);
		return own && !finding.isRelative ? [verdictOf(finding, own, language)] : [];
	});
}

/** Losses alike within this are alike along the dial, decibels (chosen: one step of a service attenuator). */
const alikeDb = 4;

/** How much more input a set needs at each test mark than the middle of what was expected; `null` where no input reached the standard output. Marks that were not read, or on which nothing can be expected, are left out. */
export function lossesAlongDial(
	facts: SetFacts,
	list: readonly Verdict[],
): readonly { readonly dialHz: number; readonly lossDb: number | null }[] {
	const { lowHz, middleHz, highHz } = testMarks(facts);
	return [lowHz, middleHz, highHz].flatMap((dialHz) => {
		const verdict = list.find(({ finding }) => finding.id === sensitivityAsk(dialHz));
		if (!verdict) return [];
		const { finding, expected } = verdict;
		const lossDb = finding.value && 20 * Math.log10(finding.value.value / Math.sqrt(expected.low * expected.high));
		return [{ dialHz, lossDb }];
	});
}

/**
 * What the shape of the loss along the dial points to, or `null` where there is none.
 * Loss alike everywhere: IF or tubes; more at the high end: trimmers; more at the low end: padder or coil. Common practice, seen on simulated sets.
 */
export function lossAlongDial(
	facts: SetFacts,
	list: readonly Verdict[],
	{ say }: Language = usualLanguage,
): string | null {
	const losses = lossesAlongDial(facts, list);
	const at = (markHz: number): number | null => losses.find(({ dialHz }) => dialHz === markHz)?.lossDb ?? null;
	const { lowHz, highHz } = testMarks(facts);
	const low = at(lowHz);
	const high = at(highHz);
	if (low === null || high === null || Math.max(low, high) < alikeDb) return null;
	if (Math.abs(high - low) < alikeDb)
		return say`The loss is alike along the dial: the IF or the tubes, not the front end.`;
	return high > low
		? say`More is lost at the high end: antenna or oscillator trimmer before all else.`
		: say`More is lost at the low end: padder, antenna coil or loop before all else.`;
}
