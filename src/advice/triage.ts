import { type Language, usualLanguage } from '#record/language.ts';
import { parseQuantity } from '#record/quantity.ts';
import type { SetFacts } from '#record/set-facts.ts';
import type { StepQuestion } from './sheet-step.ts';

/** What triage comes to; `not settled` until every question is answered, since what is not known counts as the worse case. */
export type TriageKind = 'leave alone' | 'touch up' | 'full alignment' | 'repair first' | 'not settled';

/** A verdict with its reasons, and what would change it. */
export interface TriageVerdict {
	readonly kind: TriageKind;
	/** What to do now. */
	readonly words: string;
	readonly reasons: readonly string[];
	readonly wouldChange: readonly string[];
	/** Whether the sheet may be gone on with; a sick set is not aligned. */
	readonly mayGoOn: boolean;
}

/** A question whose answer `no` is a reason; what is then said, and what is to be done. */
interface Finding extends StepQuestion {
	readonly ifNot: string;
	readonly cure: string;
}

const finding = (id: string, words: string, ifNot: string, cure: string): Finding => ({
	id,
	words,
	answer: 'yes or no',
	ifNot,
	cure,
});

/** Faults that alignment cannot cure and that falsify every reading: common practice of the trade. */
const faults = ({ say }: Language): readonly Finding[] => [
	finding(
		'restored',
		say`Electrolytic and paper capacitors replaced, drifted resistors and weak tubes too?`,
		say`Old capacitors, drifted resistors or weak tubes are still in the set.`,
		say`Replace them and measure again: alignment is the last job, after repair.`,
	),
	finding(
		'bias',
		say`Grid of the output tube free of positive voltage (no leaky coupling capacitor)?`,
		say`The coupling capacitor leaks into the grid of the output tube.`,
		say`Replace the coupling capacitor.`,
	),
	finding(
		'hum',
		say`Hum low with the volume down?`,
		say`Hum is in the reading.`,
		say`Mend the filter capacitors or the heater-to-cathode leak.`,
	),
	finding(
		'quiet',
		say`Free of crackle and squeal with the generator off?`,
		say`It crackles or squeals by itself: an IF can with creeping silver, a missing shield, an open bypass capacitor.`,
		say`Find the stage that crackles or squeals and mend it.`,
	),
	finding(
		'oscillator',
		say`Oscillator running over the whole band?`,
		say`The oscillator stops somewhere on the band.`,
		say`Try the tube, the coupling capacitor, the joints and the coil.`,
	),
];

const avcFault = ({ say }: Language): Finding =>
	finding(
		'avc',
		say`AVC line near nought without a signal?`,
		say`The AVC line has a voltage without a signal: a leak, or a stage that oscillates.`,
		say`Replace the AVC line\u2019s capacitors; look for a stage that oscillates.`,
	);

/** What tells a set that plays from one that is off, and one that is off from one that is lost. */
const standing = ({ say }: Language): readonly Finding[] => [
	finding(
		'plays',
		say`Plays as well as it should, over the whole band?`,
		say`It is weak on at least a part of the band.`,
		'',
	),
	finding('dial', say`Stations at their marks, within a few kc?`, say`Stations are off their marks.`, ''),
	finding(
		'near',
		say`No station further than 20 kc from its mark?`,
		say`A station lies more than 20 kc from its mark: the IF or the oscillator was moved.`,
		'',
	),
	finding(
		'untouched',
		say`Screws as they were set before, none turned in search of a fault?`,
		say`Screws were turned in search of a fault.`,
		'',
	),
];

const faultsOf = (facts: SetFacts, language: Language): readonly Finding[] =>
	facts.avc === 'none' ? faults(language) : [...faults(language), avcFault(language)];

/** The questions of triage for this set, in the order in which they are asked. */
export function triageQuestions(facts: SetFacts, language: Language = usualLanguage): readonly StepQuestion[] {
	const asked = ({ id, words, answer }: StepQuestion): StepQuestion => ({ id, words, answer });
	const { say } = language;
	const [restored, ...others] = faultsOf(facts, language);
	return [
		...(restored ? [asked(restored)] : []),
		{ id: 'b-plus', words: say`B-plus at the filter output`, answer: 'volts' },
		{ id: 'b-plus-chart', words: say`B-plus as the maker\u2019s chart has it, if there is one`, answer: 'volts' },
		...others.map(asked),
		...standing(language).map(asked),
	];
}

/** Share of the chart's voltage by which a set may differ: common practice, as the charts of the period say of their own values. */
const chartShare = 0.2;
/** Without a chart: below this the supply is sick; chosen, about two thirds of the least that sets of the kind are built for. */
const leastBPlusV = { 'ac-dc': 60, transformer: 120, battery: 40, unknown: 40 } as const;

/** What is wrong with B-plus, `null` when nothing is, `undefined` when it was not measured. */
function bPlusFault(
	facts: SetFacts,
	answers: Readonly<Record<string, string>>,
	{ say }: Language,
): string | null | undefined {
	const typed = answers['b-plus'] ?? '';
	const measured = parseQuantity('voltage', typed);
	if (!measured.ok) return undefined;
	const chart = parseQuantity('voltage', answers['b-plus-chart'] ?? '');
	if (chart.ok && chart.value > 0) {
		const offShare = measured.value / chart.value - 1;
		if (Math.abs(offShare) <= chartShare) return null;
		const offPercent = Math.round(Math.abs(offShare) * 100);
		return offShare < 0
			? say`B-plus is ${typed}, ${offPercent} % below the chart.`
			: say`B-plus is ${typed}, ${offPercent} % above the chart.`;
	}
	const leastV = leastBPlusV[facts.card.supply];
	return measured.value >= leastV
		? null
		: say`B-plus is ${typed}: less than ${leastV} V, below what sets of this supply have.`;
}

/** Verdicts on a set that is sound. */
function ofStanding(wrong: ReadonlySet<string>, { say }: Language): Omit<TriageVerdict, 'reasons'> {
	if (wrong.has('near') || wrong.has('untouched')) {
		return {
			kind: 'full alignment',
			words: say`Full alignment: work the sheet from the IF on, in its order, and keep the way back.`,
			wouldChange: [
				say`If the screws still stand on the factory\u2019s paint and the dial is near, a touch-up is enough.`,
				say`If one adjuster finds no peak within its travel: stop, that is a repair.`,
			],
			mayGoOn: true,
		};
	}
	if (wrong.size > 0) {
		return {
			kind: 'touch up',
			words: say`Touch up: work the sheet in its order, no adjuster further than a quarter turn from its mark.`,
			wouldChange: [
				say`An adjuster whose best lies beyond a quarter turn: it was moved, make it a full alignment.`,
				say`An adjuster that changes nothing: stop, that is a repair.`,
			],
			mayGoOn: true,
		};
	}
	return {
		kind: 'leave alone',
		words: say`Leave it alone: there is nothing to gain that could be heard.`,
		wouldChange: [
			say`A measured sensitivity or IF curve that is worse than it should be.`,
			say`A coil, a trimmer or a tube of a tuned stage that was replaced.`,
		],
		mayGoOn: true,
	};
}

/**
 * The verdict of triage on what was measured and answered: leave alone, touch up, full alignment or repair first.
 * Order of the causes and the quarter turn are common practice of the trade.
 * @param answers by id of the question, as typed; `yes` or `no` for plain questions
 */
export function judgeTriage(
	facts: SetFacts,
	answers: Readonly<Record<string, string>>,
	language: Language = usualLanguage,
): TriageVerdict {
	const { say } = language;
	const asked = faultsOf(facts, language);
	const states = standing(language);
	const sick = asked.filter(({ id }) => answers[id] === 'no');
	const bPlus = bPlusFault(facts, answers, language);
	const reasons = [...(bPlus ? [bPlus] : []), ...sick.map(({ ifNot }) => ifNot)];
	if (reasons.length > 0) {
		return {
			kind: 'repair first',
			words: say`Repair first. A sick set is not aligned: its readings would mislead.`,
			reasons,
			wouldChange: [
				...(bPlus ? [say`Mend the supply, or what loads it, until B-plus is in order.`] : []),
				...sick.map(({ cure }) => cure),
				say`Then work this step again.`,
			],
			mayGoOn: false,
		};
	}
	const open = [...asked, ...states].filter(({ id }) => answers[id] !== 'yes' && answers[id] !== 'no');
	const missing = [
		...(bPlus === undefined ? [say`B-plus at the filter output`] : []),
		...open.map(({ words }) => words),
	];
	if (missing.length > 0) {
		return {
			kind: 'not settled',
			words: say`Not settled: what is not known counts as the worse case.`,
			reasons: missing.map((words) => say`Still to be answered: ${words}`),
			wouldChange: [say`Measure or listen, and answer.`],
			mayGoOn: false,
		};
	}
	const wrong = states.filter(({ id }) => answers[id] === 'no');
	return {
		...ofStanding(new Set(wrong.map(({ id }) => id)), language),
		reasons:
			wrong.length > 0
				? wrong.map(({ ifNot }) => ifNot)
				: [say`It is sound, plays over the whole band, and its dial is true.`],
	};
}
